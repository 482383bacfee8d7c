import { Injectable } from '@nestjs/common';
import {
  type FieldError,
  InvalidInputError,
  StaleVersionError,
  VersionRequiredError,
} from '../shared/domain-error.js';
import { currentLanguage } from '../shared/request-language.js';
import { compareAsBuilt } from '../sites/as-built-compare.js';
import { changeReaders } from '../sites/as-built-fields.js';
import type { ChangeNote } from '../sites/as-built-requests.js';
import type {
  AsBuiltSheetChangeDto,
  PutSheetQueryDto,
  SheetNoteDto,
} from './as-built-sheet.dto.js';
import { AsBuiltService } from '../sites/as-built.service.js';
import { type Complaint, readFields } from '../sites/read-fields.js';
import { drawSheet, readCsv } from './sheet-read.js';
import { readTable, type SheetNote, type SheetRecords, type SheetTable } from './sheet-table.js';
import { writeSheet } from './sheet-write.js';
import { SitesService } from '../sites/sites.service.js';
import { refusalIn } from '../words/refusals.js';
import { chooseSheet } from './choose-sheet.js';
import { WorkbookService } from './workbook.service.js';

const MOST_NOTES = 100;

export interface SheetFile {
  name: string;
  text: string;
  version: number;
}

@Injectable()
export class AsBuiltSheetService {
  constructor(
    private readonly asBuilt: AsBuiltService,
    private readonly sites: SitesService,
    private readonly workbooks: WorkbookService,
  ) {}

  async put(
    siteId: string,
    bytes: Uint8Array,
    version: number | undefined,
    query: PutSheetQueryDto,
  ): Promise<AsBuiltSheetChangeDto> {
    const { check, changedBy, reason, locale } = query;
    if (!check && version === undefined) throw new VersionRequiredError();
    // Before the site is locked: reading may take a while.
    const table = await this.readTable(bytes, query);
    if (check || version === undefined) return this.check(siteId, table, version, locale);
    let notes: SheetNote[] = [];
    const change = await this.asBuilt.change(siteId, version, (current) => {
      const complaints: Complaint[] = [];
      const note = readFields(changeReaders, { changedBy, reason }, [], complaints);
      const errors = complaints.map(({ path, reason: why }) => ({
        field: path.join(),
        reason: why,
      }));
      const reading = 'header' in table ? drawSheet(table, current, locale) : table;
      if ('errors' in reading) errors.push(...reading.errors);
      if (errors.length > 0 || 'errors' in reading) throw new InvalidInputError(errors);
      notes = reading.notes;
      return { ...(note as ChangeNote), asBuilt: reading.asBuilt };
    });
    return { ...change, notes: asTold(notes) };
  }

  async read(siteId: string, version?: number): Promise<SheetFile> {
    const { name, asBuiltVersion } = await this.sites.get(siteId);
    const number = version ?? asBuiltVersion;
    const text = writeSheet(await this.asBuilt.drawing(siteId, number));
    return { name: fileName(name, number), text, version: number };
  }

  private async check(
    siteId: string,
    table: SheetTable | { errors: FieldError[] },
    expectedVersion: number | undefined,
    locale: string | undefined,
  ): Promise<AsBuiltSheetChangeDto> {
    const { asBuiltVersion: version } = await this.sites.get(siteId);
    if (expectedVersion !== undefined && expectedVersion !== version) {
      throw new StaleVersionError(version);
    }
    const current = await this.asBuilt.drawing(siteId, version);
    const reading = 'header' in table ? drawSheet(table, current, locale) : table;
    if ('errors' in reading) throw new InvalidInputError(reading.errors);
    const changes = compareAsBuilt(current, reading.asBuilt);
    return { siteId, version, saved: false, changes, notes: asTold(reading.notes) };
  }

  private async readTable(
    bytes: Uint8Array,
    query: PutSheetQueryDto,
  ): Promise<SheetTable | { errors: FieldError[] }> {
    const read = WorkbookService.isWorkbook(bytes)
      ? await this.readWorkbook(bytes, query.sheet)
      : readCsv(bytes);
    return 'records' in read ? readTable(read, query) : read;
  }

  private async readWorkbook(
    bytes: Uint8Array,
    sheet: string | undefined,
  ): Promise<SheetRecords | { errors: FieldError[] }> {
    const read = await this.workbooks.read(bytes);
    if ('sheets' in read) return chooseSheet(read.sheets, sheet);
    return { errors: [{ field: '', reason: `the workbook ${read.reason}` }] };
  }
}

/** In English for programs, and beside it for people, as refusals are. */
function asTold(notes: readonly SheetNote[]): SheetNoteDto[] {
  const language = currentLanguage();
  return notes.slice(0, MOST_NOTES).map((one) => {
    const words = refusalIn(language, one.note);
    return { ...one, ...(words !== undefined && { words }) };
  });
}

/** Plain letters only: it goes into a header and onto any disk. */
function fileName(site: string, version: number): string {
  const plain = site.normalize('NFD').replaceAll(/\p{M}/gu, '').toLowerCase();
  const words = plain.replaceAll(/[^a-z0-9]+/g, '-').replaceAll(/^-|-$/g, '');
  return ['as-built', words.slice(0, 60), `version-${version}.csv`].filter(Boolean).join('-');
}
