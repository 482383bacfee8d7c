import { Check, Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import { Visit } from '../visits/visit.entity.js';
import { Person } from '../people/person.entity.js';
import { SitePass } from './site-pass.entity.js';

/** Somebody of the site says that a visit's work was done. The database refuses to change it. */
@Entity('signatures')
@Index(['firmId', 'visitId'])
@Check('signatures_check', '(pass_id IS NULL) <> (person_id IS NULL)')
@ForeignKey(() => Visit, ['firmId', 'visitId'], ['firmId', 'id'])
@ForeignKey(() => SitePass, ['firmId', 'passId'], ['firmId', 'id'])
@ForeignKey(() => Person, ['firmId', 'personId'], ['firmId', 'id'])
export class Signature extends FirmRow {
  @Column('uuid')
  visitId!: string;

  /** What was signed: the visit as it was then. */
  @Column('integer')
  visitVersion!: number;

  @Column('text')
  name!: string;

  @Column('text', { nullable: true })
  remark!: string | null;

  /** As it was drawn by hand (`pen-path.ts`). */
  @Column('text', { nullable: true })
  drawn!: string | null;

  @Column('timestamptz')
  signedAt!: Date;

  /** Whose phone it was signed on, where a technician handed theirs over; else null. */
  @Column('text', { nullable: true })
  takenBy!: string | null;

  /** Signed with a pass, or by a client's person, or on a technician's phone. */
  @Column('uuid', { nullable: true })
  passId!: string | null;

  @Column('uuid', { nullable: true })
  personId!: string | null;
}
