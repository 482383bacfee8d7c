import { Check, Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import { Client } from '../sites/client.entity.js';
import { Firm } from '../database/firm.entity.js';
import type { PersonRole } from './roles.js';

@Entity('people')
@Index(['firmId', 'clientId'])
@Check('people_check', "(work = 'client') = (client_id IS NOT NULL)")
@ForeignKey(() => Firm, ['firmId'], ['firmId'])
@ForeignKey(() => Client, ['firmId', 'clientId'], ['firmId', 'id'])
export class Person extends FirmRow {
  @Column('text')
  name!: string;

  @Column('text')
  work!: PersonRole;

  @Column('text', { nullable: true })
  phone!: string | null;

  /** Of a client's person: whose; the firm's own people have none. */
  @Column('uuid', { nullable: true })
  clientId!: string | null;

  @Column('integer')
  version!: number;

  @Column('timestamptz')
  createdAt!: Date;
}
