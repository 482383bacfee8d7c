import { Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';
import type { FunctionName } from '../plan/functions.js';
import type { NodeKind } from '../drawing/drawn-node.js';
import { AsBuiltVersion } from './as-built-version.entity.js';
import { SiteRow } from './site-row.entity.js';

@Entity('as_built_nodes')
@ForeignKey(
  () => AsBuiltVersion,
  ['firmId', 'siteId', 'sinceVersion'],
  ['firmId', 'siteId', 'number'],
)
@Index(['firmId', 'siteId', 'trunk', 'node'], { unique: true, where: '(until_version IS NULL)' })
export class AsBuiltNode extends SiteRow {
  @PrimaryColumn('text')
  trunk!: string;

  @PrimaryColumn('text')
  node!: string;

  @PrimaryColumn('integer')
  sinceVersion!: number;

  /** The first version that it is no longer part of; null while it is current. */
  @Column('integer', { nullable: true })
  untilVersion!: number | null;

  /** Place in its trunk's order, from 1. */
  @Column('integer')
  position!: number;

  @Column('text')
  kind!: NodeKind;

  @Column('text', { nullable: true })
  fedFrom!: string | null;

  @Column('text', { nullable: true })
  cableType!: string | null;

  @Column('double precision')
  cableMetres!: number;

  @Column('boolean', { default: false })
  isLengthGuessed!: boolean;

  @Column('text', { nullable: true })
  room!: string | null;

  @Column('text', { nullable: true })
  block!: string | null;

  @Column('text', { nullable: true })
  floor!: string | null;

  @Column('text', { nullable: true })
  unitModel!: string | null;

  @Column('text', { nullable: true })
  unitSerial!: string | null;

  @Column('date', { nullable: true })
  unitInstalledOn!: string | null;

  @Column('text', { array: true, default: [] })
  groups!: string[];

  @Column('boolean', { default: false })
  isOut!: boolean;

  @Column('text', { array: true, default: [] })
  lacks!: FunctionName[];
}
