import { Entity, Index, PrimaryColumn } from 'typeorm';
import { FIRM_OF_TRANSACTION } from '../database/firm-row.js';

/** An id that an entry of the audit names, so that it is found by it; a trigger of the database writes it. */
@Entity('record_targets')
@Index(['firmId', 'entryId'])
export class AuditTarget {
  @PrimaryColumn('uuid', { name: 'firm_id', default: FIRM_OF_TRANSACTION })
  firmId!: string;

  @PrimaryColumn('text')
  target!: string;

  @PrimaryColumn('timestamptz')
  happenedAt!: Date;

  @PrimaryColumn('uuid')
  entryId!: string;
}
