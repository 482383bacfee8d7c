import { Column, Entity, ForeignKey } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import { Firm } from './firm.entity.js';
import type { Work } from './work.js';

@Entity('people')
@ForeignKey(() => Firm, ['firmId'], ['firmId'])
export class Person extends FirmRow {
  @Column('text')
  name!: string;

  @Column('text')
  work!: Work;

  @Column('text', { nullable: true })
  phone!: string | null;

  @Column('integer')
  version!: number;

  @Column('timestamptz')
  createdAt!: Date;
}
