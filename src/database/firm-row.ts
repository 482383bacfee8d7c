import { PrimaryColumn } from 'typeorm';

/**
 * The default of `firm_id` in the database: the firm of the running transaction. Written as the
 * schema comparison reads it back, which leaves out the cast to uuid that the migrations have.
 */
export const FIRM_OF_TRANSACTION = () => "(current_setting('app.firm_id'))";

/** What every table begins with. */
export abstract class FirmRow {
  @PrimaryColumn('uuid', {
    name: 'firm_id',
    default: FIRM_OF_TRANSACTION,
  })
  firmId!: string;

  @PrimaryColumn('uuid')
  id!: string;
}
