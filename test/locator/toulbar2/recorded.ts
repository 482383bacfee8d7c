import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';

/** The recorded numbers in the sources, seen from where this file is compiled to. */
export const RECORDED = new URL('../../../test/locator/toulbar2/recorded.json', import.meta.url);

/** How far behind the best, in nats, assignments are counted. */
export const COUNTED_NATS = [2, 4, 6];

export interface RecordedCase {
  /** SHA-256 of the input file and the evidence file, which uai.ts writes the same each time. */
  input: string;
  /** The cost, and both figures as printed. */
  mostProbable: { cost: number; energy: string; chance: string };
  /** log10 P(evidence) as printed, for each combination of who is confused; log P of them all. */
  evidence: { log10: string[]; log: number };
  /** Of COUNTED_NATS: complete assignments no further behind the most probable one. */
  counts: number[];
  /** log P(evidence and what is asked), in the order of the case. */
  asked: number[];
}

export interface RecordedExplanations {
  input: string;
  /** -log P(best explanation and evidence), in toulbar2's units. */
  cost: number;
  /** Of COUNTED_NATS: explanations no further behind the best. */
  counts: number[];
}

export interface Recorded {
  program: string;
  commands: Record<string, string>;
  cases: Record<string, RecordedCase>;
  explanations: Record<string, RecordedExplanations>;
}

export function readRecorded(): Recorded {
  return JSON.parse(readFileSync(RECORDED, 'utf8')) as Recorded;
}

export function checksum(...texts: string[]): string {
  return createHash('sha256').update(texts.join('\n')).digest('hex');
}
