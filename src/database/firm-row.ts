import { PrimaryColumn } from 'typeorm';

/** What every table begins with. The database itself fills in the firm of the running transaction. */
export abstract class FirmRow {
  @PrimaryColumn('uuid', {
    name: 'firm_id',
    default: () => "(current_setting('app.firm_id'))::uuid",
  })
  firmId!: string;

  @PrimaryColumn('uuid')
  id!: string;
}
