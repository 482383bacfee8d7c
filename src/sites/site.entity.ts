import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import { Client } from './client.entity.js';

@Entity('sites')
@ForeignKey(() => Client, ['firmId', 'clientId'], ['firmId', 'id'])
@Index(['firmId', 'clientId'])
export class Site extends FirmRow {
  @Column('uuid')
  clientId!: string;

  @Column('text')
  name!: string;

  @Column('text', { nullable: true })
  address!: string | null;

  /** IANA name. */
  @Column('text')
  zone!: string;

  @Column('double precision', { nullable: true })
  latitude!: number | null;

  @Column('double precision', { nullable: true })
  longitude!: number | null;

  @Column('text', { nullable: true })
  safetyNotes!: string | null;

  @Column('boolean')
  servesEmergencyCalls!: boolean;

  @Column('integer')
  version!: number;

  /** The current version of the site's as-built record; 0 while nothing is drawn. */
  @Column('integer')
  asBuiltVersion!: number;

  @Column('timestamptz')
  createdAt!: Date;
}
