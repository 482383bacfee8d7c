import { Column, Entity, Unique } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';

/** What a firm's record says of one mode of one class of components: see `LearnedClass`. */
@Entity('learned_rates')
@Unique(['firmId', 'className', 'mode'])
export class LearnedRate extends FirmRow {
  @Column('text')
  className!: string;

  @Column('text')
  mode!: string;

  @Column('text')
  learnedFrom!: string;

  @Column('double precision')
  years!: number;

  @Column('double precision')
  classRate!: number;

  @Column('jsonb')
  shares!: number[];

  @Column('jsonb')
  sites!: Record<string, { rate: number; events: Record<string, number> }>;
}
