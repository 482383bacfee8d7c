import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { JobService } from '../jobs/job.service.js';
import { Clock } from '../shared/clock.js';
import { InvalidInputError, NotFoundError, StaleVersionError } from '../shared/domain-error.js';
import { decodeCursor, type Page, toPage } from '../shared/page.js';
import type { PageQueryDto } from '../shared/page.dto.js';
import { type AsBuilt, compareTrunks, NOTHING_DRAWN } from './as-built.js';
import { compareAsBuilt, isSame } from './as-built-compare.js';
import type { AsBuiltComparisonDto, AsBuiltChangeDto } from './as-built-comparison.dto.js';
import type { AsBuiltDto, AsBuiltVersionDto, CompareQueryDto } from './as-built.dto.js';
import { AsBuiltRepository } from './as-built.repository.js';
import { type AsBuiltChange, readNodePatch, readReplacement } from './as-built-requests.js';
import { changedRows, toNodeRows, toTrunkRows, toTrunks } from './as-built-rows.js';
import type { AsBuiltVersion } from './as-built-version.entity.js';
import { KeptDrawings } from './kept-drawings.js';
import type { Raw } from './read-fields.js';
import { SiteService } from './site.service.js';

@Injectable()
export class AsBuiltService {
  private readonly kept = new KeptDrawings();

  constructor(
    private readonly transaction: FirmTransaction,
    private readonly repository: AsBuiltRepository,
    private readonly sites: SiteService,
    private readonly jobs: JobService,
    private readonly clock: Clock,
  ) {}

  /** One version of a site's record, the current one if none is named. */
  async read(siteId: string, version?: number): Promise<AsBuiltDto> {
    const number = version ?? (await this.sites.get(siteId)).asBuiltVersion;
    const note = await this.findVersion(siteId, number);
    return {
      siteId,
      version: number,
      changedBy: note?.changedBy ?? null,
      changedAt: note?.changedAt ?? null,
      reason: note?.reason ?? null,
      ...(await this.drawingOf(siteId, number)),
    };
  }

  async drawing(siteId: string, version?: number): Promise<AsBuilt> {
    const number = version ?? (await this.sites.get(siteId)).asBuiltVersion;
    if (version !== undefined && version > 0) await this.findVersion(siteId, number);
    return this.drawingOf(siteId, number);
  }

  /** For whoever has read something that names the version, and so reaches its site: that is not looked up again. */
  async drawingOf(siteId: string, version: number): Promise<AsBuilt> {
    if (version === 0) return NOTHING_DRAWN;
    const key = `${this.transaction.firmId()} ${siteId} ${version}`;
    const known = this.kept.get(key);
    if (known !== undefined) return known;
    const read = await this.transaction.once(key, () => this.repository.read(siteId, version));
    if (read === null) throw new NotFoundError('version of this as-built record', String(version));
    const { headEnd, trunks, nodes } = read;
    const drawing = { headEnd, trunks: toTrunks(trunks, nodes).sort(compareTrunks) };
    // A version that the running transaction makes may come to nothing.
    this.transaction.afterCommit(() => this.kept.keep(key, drawing));
    return drawing;
  }

  async versions(siteId: string, { after, limit }: PageQueryDto): Promise<Page<AsBuiltVersionDto>> {
    await this.sites.get(siteId);
    const rows = await this.repository.listVersions(siteId, toNumber(after), limit + 1);
    return toPage(
      rows,
      limit,
      ({ number }) => [String(number)],
      ({ number, changedBy, changedAt, reason }) => ({
        version: number,
        changedBy,
        changedAt,
        reason,
      }),
    );
  }

  async compare(siteId: string, { from, to }: CompareQueryDto): Promise<AsBuiltComparisonDto> {
    const before = await this.drawing(siteId, from);
    return { from, to, ...compareAsBuilt(before, await this.drawing(siteId, to)) };
  }

  replace(siteId: string, version: number, body: Raw): Promise<AsBuiltChangeDto> {
    return this.change(siteId, version, () => orInvalid(readReplacement(body)));
  }

  patchNode(
    siteId: string,
    place: { trunk: string; node: string },
    version: number,
    patch: Raw,
  ): Promise<AsBuiltChangeDto> {
    return this.change(siteId, version, (current) => {
      const read = readNodePatch(current, place, patch);
      if (read === undefined) throw new NotFoundError(`node on trunk ${place.trunk}`, place.node);
      return orInvalid(read);
    });
  }

  /** Makes a new version of what `make` makes of the current one; none when nothing differs. */
  async change(
    siteId: string,
    expectedVersion: number,
    make: (current: AsBuilt) => AsBuiltChange,
  ): Promise<AsBuiltChangeDto> {
    const { asBuiltVersion } = await this.sites.lock(siteId);
    if (asBuiltVersion !== expectedVersion) throw new StaleVersionError(asBuiltVersion);
    const before = await this.drawing(siteId, asBuiltVersion);
    const change = make(before);
    const changes = compareAsBuilt(before, change.asBuilt);
    if (isSame(changes)) return { siteId, version: asBuiltVersion, saved: false, changes };
    await this.write(siteId, asBuiltVersion + 1, before, change);
    return { siteId, version: asBuiltVersion + 1, saved: true, changes };
  }

  private async write(
    siteId: string,
    number: number,
    before: AsBuilt,
    { asBuilt, changedBy, reason }: AsBuiltChange,
  ): Promise<void> {
    const changedAt = this.clock.now();
    const note = { siteId, number, changedBy, changedAt, reason };
    await this.repository.insertVersion({ ...note, ...asBuilt.headEnd });
    const trunks = changedRows(toTrunkRows(before), toTrunkRows(asBuilt), ({ trunk }) => trunk);
    await this.repository.writeTrunks(siteId, number, trunks);
    // No code holds a slash, so the key is one node's alone.
    const keyOf = ({ trunk, node }: { trunk: string; node: string }) => `${trunk}/${node}`;
    const nodes = changedRows(toNodeRows(before), toNodeRows(asBuilt), keyOf);
    await this.repository.writeNodes(siteId, number, nodes);
    await this.sites.setAsBuiltVersion(siteId, number);
    // What is learned is learned of the components that there are.
    await this.jobs.enqueue('learned-rates', {});
  }

  /** Version 0, before anything was drawn, has nothing to be found. */
  private async findVersion(siteId: string, number: number): Promise<AsBuiltVersion | null> {
    const version = await this.repository.findVersion(siteId, number);
    if (version !== null) return version;
    await this.sites.get(siteId);
    if (number !== 0) throw new NotFoundError('version of this as-built record', String(number));
    return null;
  }
}

function orInvalid<T extends object>(read: T | { errors: InvalidInputError['errors'] }): T {
  if ('errors' in read) throw new InvalidInputError(read.errors);
  return read;
}

function toNumber(after: string | undefined): number | undefined {
  const [number] = decodeCursor(after, 1) ?? [];
  if (number === undefined) return undefined;
  if (/^\d{1,9}$/.test(number)) return Number(number);
  throw new InvalidInputError([{ field: 'after', reason: 'is not a cursor that was given here' }]);
}
