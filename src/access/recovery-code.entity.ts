import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import { Person } from '../people/person.entity.js';

/** Signs in once when the phone is gone. Using a code deletes it. */
@Entity('recovery_codes')
@Index(['firmId', 'personId'])
@ForeignKey(() => Person, ['firmId', 'personId'], ['firmId', 'id'])
export class RecoveryCode extends FirmRow {
  @Column('uuid')
  personId!: string;

  @Column('text')
  codeHash!: string;
}
