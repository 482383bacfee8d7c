import { Column, Entity, PrimaryColumn } from 'typeorm';
import { FIRM_OF_TRANSACTION } from '../database/firm-row.js';
import type { LearnedErrors } from './learned-errors.js';

/** How often calls are about nothing and looks miss, as a firm's record says; one row a firm. */
@Entity('learned_errors')
export class FirmLearnedErrors {
  @PrimaryColumn('uuid', { name: 'firm_id', default: FIRM_OF_TRANSACTION })
  firmId!: string;

  @Column('jsonb')
  learned!: LearnedErrors;
}
