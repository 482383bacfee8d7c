import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import type { FunctionName } from '../locator/index.js';

/**
 * A function that a walk test on a visit showed to work at a station. It is never changed, save once for the entry of the
 * visit's log that takes it back.
 */
@Entity('proven_points')
@Index(['firmId', 'siteId', 'testedAt'])
@Index(['firmId', 'visitId'])
@ForeignKey('Site', ['firmId', 'siteId'], ['firmId', 'id'])
@ForeignKey('Visit', ['firmId', 'visitId'], ['firmId', 'id'])
@ForeignKey('VisitWithdrawal', ['firmId', 'visitWithdrawalId'], ['firmId', 'id'])
export class ProvenPoint extends FirmRow {
  /** All points of one walk test share it. */
  @Column('uuid')
  walkTestId!: string;

  @Column('uuid')
  siteId!: string;

  @Column('uuid')
  visitId!: string;

  @Column('text')
  trunk!: string;

  @Column('text')
  node!: string;

  @Column('text')
  function!: FunctionName;

  @Column('timestamptz')
  testedAt!: Date;

  @Column('text')
  testedBy!: string;

  @Column('timestamptz')
  recordedAt!: Date;

  /** The entry of its visit's log that took it back; null where nobody did. */
  @Column('uuid', { nullable: true })
  visitWithdrawalId!: string | null;
}
