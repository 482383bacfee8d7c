import { Column, Entity, ForeignKey, Index, Unique } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import type { Language } from '../words/index.js';
import { Person } from './person.entity.js';

/** A person's sign-in; its id is the person's. */
@Entity('accounts')
@Unique(['firmId', 'email'])
@Index(['email'])
@ForeignKey(() => Person, ['firmId', 'id'], ['firmId', 'id'])
export class Account extends FirmRow {
  /** In lower case. */
  @Column('text')
  email!: string;

  /** Null until the person has chosen one. */
  @Column('text', { nullable: true })
  passwordHash!: string | null;

  @Column('timestamptz', { nullable: true })
  passwordChangedAt!: Date | null;

  @Column('timestamptz', { nullable: true })
  lastSignInAt!: Date | null;

  @Column('timestamptz', { nullable: true })
  endedAt!: Date | null;

  /** In base 32, sealed; counts once it is confirmed. */
  @Column('text', { nullable: true })
  totpSecret!: string | null;

  @Column('timestamptz', { nullable: true })
  totpConfirmedAt!: Date | null;

  /** The latest step of the clock whose code was used: each is taken once. */
  @Column('integer', { nullable: true })
  totpLastStep!: number | null;

  /** In which pages are shown; null until the person has chosen one. */
  @Column('text', { nullable: true })
  language!: Language | null;

  @Column('timestamptz')
  createdAt!: Date;
}
