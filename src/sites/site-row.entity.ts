import { PrimaryColumn } from 'typeorm';

/** What every table of the as-built record begins with: its rows are a site's, under their own codes. */
export abstract class SiteRow {
  @PrimaryColumn('uuid', {
    name: 'firm_id',
    default: () => "(current_setting('app.firm_id'))",
  })
  firmId!: string;

  @PrimaryColumn('uuid')
  siteId!: string;
}
