import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import { SitePass } from './site-pass.entity.js';

/** A sitting of somebody who came with a pass. */
@Entity('pass_sessions')
@Index(['secretHash'], { unique: true })
@Index(['firmId', 'passId'])
@ForeignKey(() => SitePass, ['firmId', 'passId'], ['firmId', 'id'])
export class PassSession extends FirmRow {
  @Column('text')
  secretHash!: string;

  @Column('uuid')
  passId!: string;

  @Column('timestamptz')
  lastSeenAt!: Date;

  @Column('timestamptz')
  endsAt!: Date;
}
