import { Worker } from 'node:worker_threads';
import { Injectable } from '@nestjs/common';
import { TooManyError } from '../shared/domain-error.js';
import type { SheetRecord } from './sheet-records.js';

export type WorkbookReply =
  { sheets: { sheet: string; records: SheetRecord[] }[] } | { reason: string };

const LIMITS = { maxOldGenerationSizeMb: 384, maxYoungGenerationSizeMb: 32, stackSizeMb: 4 };
const MOST_SECONDS = 10;
const MOST_AT_ONCE = 2;
const MOST_WAITING = 8;
const SECONDS_TO_WAIT = 10;

/** Reads workbooks on threads with bounds of their own, so that no file stops the service. */
@Injectable()
export class WorkbookService {
  private running = 0;
  private readonly waiting: (() => void)[] = [];

  static isWorkbook(bytes: Uint8Array): boolean {
    // How a ZIP file begins.
    return bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 3 && bytes[3] === 4;
  }

  async read(bytes: Uint8Array): Promise<WorkbookReply> {
    if (this.running >= MOST_AT_ONCE) {
      if (this.waiting.length >= MOST_WAITING) throw new TooManyError(SECONDS_TO_WAIT);
      await new Promise<void>((resolve) => this.waiting.push(resolve));
    }
    this.running++;
    try {
      return await readOnThread(bytes);
    } finally {
      this.running--;
      this.waiting.shift()?.();
    }
  }
}

async function readOnThread(bytes: Uint8Array): Promise<WorkbookReply> {
  const thread = new Worker(new URL('./workbook.worker.js', import.meta.url), {
    workerData: bytes,
    resourceLimits: LIMITS,
  });
  const reason = 'takes too much time or memory; save its as-built sheet as CSV in UTF-8';
  let clock: NodeJS.Timeout | undefined;
  try {
    return await new Promise<WorkbookReply>((resolve) => {
      thread.once('message', resolve);
      thread.once('error', () => resolve({ reason }));
      thread.once('exit', () => resolve({ reason }));
      clock = setTimeout(() => resolve({ reason }), MOST_SECONDS * 1000);
    });
  } finally {
    clearTimeout(clock);
    await thread.terminate();
  }
}
