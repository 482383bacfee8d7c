import { Column, Entity, ForeignKey } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';

@Entity('clients')
@ForeignKey('Firm', ['firmId'], ['firmId'])
export class Client extends FirmRow {
  @Column('text')
  name!: string;

  @Column('text', { nullable: true })
  contactName!: string | null;

  @Column('text', { nullable: true })
  phone!: string | null;

  @Column('text', { nullable: true })
  email!: string | null;

  @Column('integer')
  version!: number;

  @Column('timestamptz')
  createdAt!: Date;
}
