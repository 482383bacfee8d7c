import { PrimaryColumn } from 'typeorm';
import { FIRM_OF_TRANSACTION } from '../database/firm-row.js';

/** What every table of the as-built record begins with: its rows are a site's, under their own codes. */
export abstract class SiteRow {
  @PrimaryColumn('uuid', { name: 'firm_id', default: FIRM_OF_TRANSACTION })
  firmId!: string;

  @PrimaryColumn('uuid')
  siteId!: string;
}
