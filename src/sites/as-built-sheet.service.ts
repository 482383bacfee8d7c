import { Injectable } from '@nestjs/common';
import {
  InvalidInputError,
  StaleVersionError,
  VersionRequiredError,
} from '../shared/domain-error.js';
import { compareAsBuilt } from './as-built-compare.js';
import type { AsBuiltChangeDto } from './as-built-comparison.dto.js';
import { changeReaders } from './as-built-fields.js';
import type { ChangeNote } from './as-built-requests.js';
import type { PutSheetQueryDto } from './as-built-sheet.dto.js';
import { AsBuiltService } from './as-built.service.js';
import { type Complaint, readFields } from './read-fields.js';
import { readSheet } from './sheet-read.js';
import { writeSheet } from './sheet-write.js';
import { SiteService } from './site.service.js';

export interface SheetFile {
  name: string;
  text: string;
  version: number;
}

@Injectable()
export class AsBuiltSheetService {
  constructor(
    private readonly asBuilt: AsBuiltService,
    private readonly sites: SiteService,
  ) {}

  async put(
    siteId: string,
    bytes: Uint8Array,
    version: number | undefined,
    { check, changedBy, reason }: PutSheetQueryDto,
  ): Promise<AsBuiltChangeDto> {
    if (check) return this.check(siteId, bytes, version);
    if (version === undefined) throw new VersionRequiredError();
    return this.asBuilt.change(siteId, version, (current) => {
      const complaints: Complaint[] = [];
      const note = readFields(changeReaders, { changedBy, reason }, [], complaints);
      const errors = complaints.map(({ path, reason: why }) => ({
        field: path.join(),
        reason: why,
      }));
      const reading = readSheet(bytes, current);
      if ('errors' in reading) errors.push(...reading.errors);
      if (errors.length > 0 || 'errors' in reading) throw new InvalidInputError(errors);
      return { ...(note as ChangeNote), asBuilt: reading.asBuilt };
    });
  }

  async read(siteId: string, version?: number): Promise<SheetFile> {
    const { name, asBuiltVersion } = await this.sites.get(siteId);
    const number = version ?? asBuiltVersion;
    const text = writeSheet(await this.asBuilt.drawing(siteId, number));
    return { name: fileName(name, number), text, version: number };
  }

  private async check(
    siteId: string,
    bytes: Uint8Array,
    expectedVersion: number | undefined,
  ): Promise<AsBuiltChangeDto> {
    const { asBuiltVersion: version } = await this.sites.get(siteId);
    if (expectedVersion !== undefined && expectedVersion !== version) {
      throw new StaleVersionError(version);
    }
    const current = await this.asBuilt.drawing(siteId, version);
    const reading = readSheet(bytes, current);
    if ('errors' in reading) throw new InvalidInputError(reading.errors);
    return { siteId, version, saved: false, changes: compareAsBuilt(current, reading.asBuilt) };
  }
}

/** Plain letters only: it goes into a header and onto any disk. */
function fileName(site: string, version: number): string {
  const plain = site.normalize('NFD').replaceAll(/\p{M}/gu, '').toLowerCase();
  const words = plain.replaceAll(/[^a-z0-9]+/g, '-').replaceAll(/^-|-$/g, '');
  return ['as-built', words.slice(0, 60), `version-${version}.csv`].filter(Boolean).join('-');
}
