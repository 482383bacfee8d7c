import { createHash } from 'node:crypto';
import { once } from 'node:events';
import { createReadStream } from 'node:fs';
import type { Readable, Writable } from 'node:stream';
import { createGunzip } from 'node:zlib';
import { BackupError } from './backup-error.js';
import { explainFile } from './explain-file.js';

/** Goes up with each change to how the file is laid out. */
export const BACKUP_FORMAT = 1;

/** First line of the file. */
export interface BackupHeader {
  lastheardBackup: number;
  /** Of the app that made it. */
  version: string;
  madeAt: string;
  /** Names of the migrations that the database had, oldest first. */
  migrations: string[];
  /** Of the job queues' tables; null where there were none. */
  jobsSchema: number | null;
  /** In base 64; without it what is sealed in the database is lost. */
  sealKey: string;
}

/** Goes before the rows of one table: PostgreSQL's COPY text, one row a line, then a line of its own that ends them. */
interface Section {
  copy: string;
  columns: string[];
}

/** Last line of the file: rows by table, and the checksum of all lines before it. */
export interface BackupEnd {
  rows: Record<string, number>;
  sha256: string;
}

/** What a file is found to be, in order; `rows` are whole lines. */
export type BackupPart =
  | { header: BackupHeader }
  | { section: Section }
  | { rows: Buffer }
  | { sectionEnd: true }
  | { end: BackupEnd };

const NEWLINE = 10;
const END_OF_ROWS = Buffer.from('\\.\n');

export class BackupWriter {
  private readonly hash = createHash('sha256');
  private readonly rows: Record<string, number> = {};

  constructor(private readonly file: Writable) {}

  begin(header: BackupHeader): Promise<void> {
    return this.write(line(header));
  }

  /** Waits for the file after each chunk, so that no more than a few are in memory. */
  async copy(section: Section, rows: Readable): Promise<void> {
    await this.write(line(section));
    let count = 0;
    for await (const chunk of rows as AsyncIterable<Buffer>) {
      for (const byte of chunk) if (byte === NEWLINE) count++;
      await this.write(chunk);
    }
    await this.write(END_OF_ROWS);
    this.rows[section.copy] = (this.rows[section.copy] ?? 0) + count;
  }

  async end(): Promise<BackupEnd> {
    const end = { rows: this.rows, sha256: this.hash.digest('hex') };
    this.file.end(line(end));
    await once(this.file, 'finish');
    return end;
  }

  private async write(bytes: Buffer): Promise<void> {
    this.hash.update(bytes);
    if (!this.file.write(bytes)) await once(this.file, 'drain');
  }
}

function line(value: object): Buffer {
  return Buffer.from(`${JSON.stringify(value)}\n`);
}

/** Reads a file from its beginning to its end; throws `BackupError` where it is none, or damaged. */
export async function* readBackup(path: string): AsyncGenerator<BackupPart> {
  const parts = new BackupParts();
  const source = createReadStream(path);
  const unzipped = source.on('error', (error) => unzipped.destroy(error)).pipe(createGunzip());
  try {
    for await (const chunk of unzipped as AsyncIterable<Buffer>) yield* parts.push(chunk);
  } catch (error) {
    const { code = '' } = error as NodeJS.ErrnoException;
    if (code.startsWith('Z_'))
      throw new BackupError(`${path} is damaged, or no backup of Lastheard: ${code}`);
    throw explainFile(path, error);
  } finally {
    source.destroy();
  }
  if (!parts.isComplete) throw new BackupError(`${path} is damaged: it ends too early`);
}

/** Cuts what comes in chunks at its lines, and checks it. */
class BackupParts {
  isComplete = false;
  private state: 'header' | 'between' | 'rows' = 'header';
  private rest: Buffer = Buffer.alloc(0);
  private table = '';
  private readonly hash = createHash('sha256');
  private readonly counted: Record<string, number> = {};

  *push(chunk: Buffer): Generator<BackupPart> {
    const bytes = this.rest.length === 0 ? chunk : Buffer.concat([this.rest, chunk]);
    let at = 0;
    for (let end = bytes.indexOf(NEWLINE); end >= 0; end = bytes.indexOf(NEWLINE, at)) {
      if (this.isComplete) throw damaged('something follows its end');
      if (this.state === 'rows') {
        const rows = this.takeRows(bytes, at);
        if (rows.length > 0) yield { rows };
        at += rows.length;
        if (!bytes.subarray(at).subarray(0, 3).equals(END_OF_ROWS)) break;
        this.hash.update(END_OF_ROWS);
        at += END_OF_ROWS.length;
        this.state = 'between';
        yield { sectionEnd: true };
      } else {
        yield this.takeLine(bytes.subarray(at, end + 1));
        at = end + 1;
      }
    }
    this.rest = bytes.subarray(at);
  }

  /** All whole rows from there on, up to the line that ends them. */
  private takeRows(bytes: Buffer, start: number): Buffer {
    let at = start;
    let count = 0;
    for (let end = bytes.indexOf(NEWLINE, at); end >= 0; end = bytes.indexOf(NEWLINE, at)) {
      if (end - at === 2 && bytes.subarray(at, end + 1).equals(END_OF_ROWS)) break;
      at = end + 1;
      count++;
    }
    const rows = bytes.subarray(start, at);
    this.hash.update(rows);
    this.counted[this.table] = (this.counted[this.table] ?? 0) + count;
    return rows;
  }

  private takeLine(bytes: Buffer): BackupPart {
    const value = parse(bytes);
    if (this.state === 'header') {
      this.hash.update(bytes);
      this.state = 'between';
      return { header: asHeader(value) };
    }
    if ('sha256' in value) {
      this.checkEnd(value as unknown as BackupEnd);
      return { end: value as unknown as BackupEnd };
    }
    if (typeof value['copy'] !== 'string') throw damaged('it holds what no backup does');
    this.hash.update(bytes);
    this.table = value['copy'];
    this.counted[this.table] ??= 0;
    this.state = 'rows';
    return { section: value as unknown as Section };
  }

  private checkEnd({ rows, sha256 }: BackupEnd): void {
    if (this.hash.digest('hex') !== sha256) throw damaged('its checksum is another');
    const tables = Object.keys({ ...rows, ...this.counted });
    if (tables.some((table) => rows[table] !== this.counted[table]))
      throw damaged('rows are missing in it');
    this.isComplete = true;
  }
}

function asHeader(value: Record<string, unknown>): BackupHeader {
  const { lastheardBackup: format } = value;
  if (typeof format !== 'number') throw damaged('it does not begin as a backup does');
  if (format !== BACKUP_FORMAT)
    throw new BackupError(
      `The backup is of format ${format}, made by Lastheard ${String(value['version'])}; this one reads format ${BACKUP_FORMAT}`,
    );
  return value as unknown as BackupHeader;
}

function parse(bytes: Buffer): Record<string, unknown> {
  try {
    const value: unknown = JSON.parse(bytes.toString());
    if (typeof value === 'object' && value !== null) return value as Record<string, unknown>;
  } catch {
    // Told below.
  }
  throw damaged('it holds what no backup does');
}

function damaged(why: string): BackupError {
  return new BackupError(`The file is damaged, or no backup of Lastheard: ${why}`);
}
