// Runs ngspice again on the recorded input files and compares it with the recorded numbers and
// with the ladder. `node dist-test/electrical/ngspice/check-ngspice.js` (exit code 1 on a
// difference); with `--record` writes input files and numbers anew from cases.ts.
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { solveTrunk } from '#app/locator/electrical/index.js';
import { CASES } from './cases.js';
import { netlist } from './netlist.js';
import { FOLDER, readRecorded } from './recorded.js';

const TOLERANCE_VOLTS = 1e-6;

function run(file: URL): number[] {
  const output = execFileSync('ngspice', ['-b', fileURLToPath(file)], { encoding: 'utf8' });
  const printed = [...output.matchAll(/^v\(n(\d+)\) = (\S+)/gm)];
  const volts: number[] = [];
  for (const [, node, value] of printed) volts[Number(node)] = Number(value);
  return volts;
}

function record(): void {
  const version = /ngspice-\S+/.exec(execFileSync('ngspice', ['--version'], { encoding: 'utf8' }));
  const volts: Record<string, number[]> = {};
  for (const [name, trunk] of Object.entries(CASES)) {
    const file = new URL(`${name}.cir`, FOLDER);
    writeFileSync(file, netlist(name, trunk));
    volts[name] = run(file);
  }
  const recorded = { program: version?.[0] ?? 'unknown', command: 'ngspice -b NAME.cir', volts };
  writeFileSync(new URL('recorded.json', FOLDER), `${JSON.stringify(recorded, null, 2)}\n`);
}

function largestDifference(a: readonly number[], b: readonly number[]): number {
  if (a.length !== b.length) return Infinity;
  // Not Math.max alone: a hole or NaN must count as a difference.
  return a.reduce((most, x, i) => {
    const difference = Math.abs(x - (b[i] ?? Number.NaN));
    return Number.isNaN(difference) ? Infinity : Math.max(most, difference);
  }, 0);
}

function check(): boolean {
  const recorded = readRecorded();
  const results = Object.entries(CASES).map(([name, trunk]) => {
    const file = new URL(`${name}.cir`, FOLDER);
    const isSameInput = readFileSync(file, 'utf8') === netlist(name, trunk);
    const again = run(file);
    const toRecorded = largestDifference(again, recorded.volts[name] ?? []);
    const toLadder = largestDifference(again, solveTrunk(trunk).nodeVolts);
    const isGood = isSameInput && toRecorded <= TOLERANCE_VOLTS && toLadder <= TOLERANCE_VOLTS;
    const figures = `recorded ${toRecorded.toExponential(1)} V, ladder ${toLadder.toExponential(1)} V`;
    console.log(
      `${isGood ? 'ok  ' : 'FAIL'} ${name}: ${figures}${isSameInput ? '' : ', input differs'}`,
    );
    return isGood;
  });
  return results.length > 0 && results.every(Boolean);
}

if (process.argv.includes('--record')) record();
process.exitCode = check() ? 0 : 1;
