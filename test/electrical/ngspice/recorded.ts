import { readFileSync } from 'node:fs';

/** The folder of the recorded files in the sources, seen from where this file is compiled to. */
export const FOLDER = new URL('../../../test/electrical/ngspice/', import.meta.url);

export interface Recorded {
  program: string;
  command: string;
  /** Volts of node 0, 1, … by case. */
  volts: Record<string, number[]>;
}

export function readRecorded(): Recorded {
  return JSON.parse(readFileSync(new URL('recorded.json', FOLDER), 'utf8')) as Recorded;
}
