import { Injectable } from '@nestjs/common';
import { type EntityManager, LessThan } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { AsBuiltNode } from './as-built-node.entity.js';
import type { HeadEnd } from './as-built.js';
import type { NodeRow, RowChange, TrunkRow } from './as-built-rows.js';
import { AsBuiltVersion } from './as-built-version.entity.js';

const BELONGS_TO_VERSION = 'since_version <= $2 AND (until_version IS NULL OR until_version > $2)';

/** A site's rows go to and fro as one JSON parameter: thousands of them in one statement. */
@Injectable()
export class AsBuiltRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async findVersion(siteId: string, number: number): Promise<AsBuiltVersion | null> {
    const manager = await this.transaction.manager();
    return manager.findOneBy(AsBuiltVersion, { siteId, number });
  }

  /** Newest first; at most `count`, before the given number. */
  async listVersions(
    siteId: string,
    before: number | undefined,
    count: number,
  ): Promise<AsBuiltVersion[]> {
    const manager = await this.transaction.manager();
    const number = before === undefined ? {} : { number: LessThan(before) };
    return manager.find(AsBuiltVersion, {
      where: { siteId, ...number },
      order: { number: 'DESC' },
      take: count,
    });
  }

  /** All that one version draws, in one statement: nodes in the order of each trunk; null where there is none. */
  async read(
    siteId: string,
    version: number,
  ): Promise<{ headEnd: HeadEnd; trunks: TrunkRow[]; nodes: NodeRow[] } | null> {
    const manager = await this.transaction.manager();
    const [row] = await manager.query<{ headEnd: HeadEnd; trunks: TrunkRow[]; nodes: NodeRow[] }[]>(
      `SELECT
         json_build_object('model', model, 'serial', serial, 'place', place, 'installedOn', installed_on,
           'supplyVolts', supply_volts, 'supplyOhms', supply_ohms, 'stationAmps', station_amps,
           'coreOhmsPerKm', core_ohms_per_km) AS "headEnd",
         (SELECT coalesce(json_agg(t), '[]') FROM (
            SELECT trunk, name, port FROM as_built_trunks
            WHERE site_id = $1 AND ${BELONGS_TO_VERSION}) AS t) AS trunks,
         (SELECT coalesce(json_agg(n ORDER BY n.position), '[]') FROM (
            SELECT ${nodeColumns(manager).select} FROM as_built_nodes
            WHERE site_id = $1 AND ${BELONGS_TO_VERSION}) AS n) AS nodes
       FROM as_built_versions WHERE site_id = $1 AND number = $2`,
      [siteId, version],
    );
    return row ?? null;
  }

  async insertVersion(version: Omit<AsBuiltVersion, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(AsBuiltVersion, { ...version });
  }

  async writeTrunks(
    siteId: string,
    version: number,
    { ended, begun }: RowChange<TrunkRow>,
  ): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.query(
      `UPDATE as_built_trunks AS kept SET until_version = $2
       FROM json_to_recordset($3) AS ended (trunk text)
       WHERE kept.site_id = $1 AND kept.until_version IS NULL AND kept.trunk = ended.trunk`,
      [siteId, version, JSON.stringify(ended)],
    );
    await manager.query(
      `INSERT INTO as_built_trunks (site_id, since_version, trunk, name, port)
       SELECT $1, $2, trunk, name, port
       FROM json_to_recordset($3) AS begun (trunk text, name text, port text)`,
      [siteId, version, JSON.stringify(begun)],
    );
  }

  async writeNodes(
    siteId: string,
    version: number,
    { ended, begun }: RowChange<NodeRow>,
  ): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.query(
      `UPDATE as_built_nodes AS kept SET until_version = $2
       FROM json_to_recordset($3) AS ended (trunk text, node text)
       WHERE kept.site_id = $1 AND kept.until_version IS NULL
         AND kept.trunk = ended.trunk AND kept.node = ended.node`,
      [siteId, version, JSON.stringify(ended.map(({ trunk, node }) => ({ trunk, node })))],
    );
    const { names, properties, typed } = nodeColumns(manager);
    await manager.query(
      `INSERT INTO as_built_nodes (site_id, since_version, ${names})
       SELECT $1, $2, ${properties} FROM json_to_recordset($3) AS begun (${typed})`,
      [siteId, version, JSON.stringify(begun)],
    );
  }
}

/** Columns that say of which site and versions a row is; all others are the node's own. */
const OF_VERSION = ['firmId', 'siteId', 'sinceVersion', 'untilVersion'];

/** A node's own columns as lists for SQL, as the entity has them: a new field is one there. */
function nodeColumns(manager: EntityManager) {
  const own = manager.connection
    .getMetadata(AsBuiltNode)
    .columns.filter(({ propertyName }) => !OF_VERSION.includes(propertyName));
  const list = (of: (column: (typeof own)[number]) => string) => own.map(of).join(', ');
  return {
    names: list(({ databaseName }) => databaseName),
    properties: list(({ propertyName }) => `"${propertyName}"`),
    select: list(({ databaseName, propertyName, type }) => {
      // A day is text here: the driver would make it an instant.
      return `${databaseName}${type === 'date' ? '::text' : ''} AS "${propertyName}"`;
    }),
    typed: list(({ propertyName, type, isArray }) => {
      return `"${propertyName}" ${type as string}${isArray ? '[]' : ''}`;
    }),
  };
}
