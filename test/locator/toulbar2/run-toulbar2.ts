import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Costs are -log P in units of 1e-12, each table's rounded by itself. */
export const COSTS_PER_NAT = 1e12;

const OPTIONS = {
  mostProbable: ['-precision=12'],
  // All variables are eliminated before the search, which alone does not finish from six stations on.
  evidence: ['-precision=12', '-logz', '-O=-3', '-p=8', '-v=1'],
  count: ['-precision=12', '-a', '-nopre', '-dee=0'],
};

/** What the recorded numbers were made with. */
export const COMMANDS = {
  mostProbable: `toulbar2 F.uai F.evid ${OPTIONS.mostProbable.join(' ')}`,
  evidence: `toulbar2 F.uai F.evid ${OPTIONS.evidence.join(' ')}`,
  count: `toulbar2 F.uai F.evid ${OPTIONS.count.join(' ')} -ub=COST`,
};

/** An input file and its evidence, in a folder of their own until `close`. */
export class Toulbar2 {
  private readonly folder = mkdtempSync(join(tmpdir(), 'toulbar2-'));

  constructor(
    model: string,
    private readonly timeoutMilliseconds = 60_000,
  ) {
    writeFileSync(join(this.folder, 'F.uai'), model);
  }

  close(): void {
    rmSync(this.folder, { recursive: true });
  }

  mostProbable(evidence: string): { cost: number; energy: string; chance: string } {
    const output = this.run(evidence, OPTIONS.mostProbable);
    const [, cost, energy, chance] = find(output, /^Optimum: (\d+) energy: (\S+) prob: (\S+)/m);
    return { cost: Number(cost), energy: energy!, chance: chance! };
  }

  /** log10 P as printed, to three decimals; and log P, of which the two parts are printed as costs. */
  evidence(evidence: string): { log10: string; log: number } {
    const output = this.run(evidence, OPTIONS.evidence);
    find(output, /^0 unassigned variables/m);
    const [, low, log10] = find(output, /^(\S+) <= Log10\(Z\) <= (\S+)/m);
    if (low !== log10) throw new Error(`toulbar2 printed only bounds: ${low}, ${log10}`);
    const [, shift] = find(output, /^NegativeShiftingCost= (-?\d+)/m);
    const [, cost] = find(output, /^add open node (\d+) \+ 0 /m);
    const log = -(Number(cost) + Number(shift)) / COSTS_PER_NAT;
    if ((log / Math.LN10).toFixed(3) !== log10) throw new Error(`${log} is not 10^${log10}`);
    return { log10, log };
  }

  /** How many complete assignments cost less. */
  count(evidence: string, cost: number): number {
    const output = this.run(evidence, [...OPTIONS.count, `-ub=${cost}`]);
    return Number(find(output, /^Number of solutions +: += +(\d+)/m)[1]);
  }

  private run(evidence: string, options: string[]): string {
    writeFileSync(join(this.folder, 'F.evid'), evidence);
    const { error, stdout } = spawnSync('toulbar2', ['F.uai', 'F.evid', ...options], {
      cwd: this.folder,
      encoding: 'utf8',
      timeout: this.timeoutMilliseconds,
      maxBuffer: 2 ** 26,
    });
    // Not the error itself: it would print all that toulbar2 printed.
    if (error) throw new Error(`toulbar2 ${options.join(' ')}: ${error.message}`);
    return stdout;
  }
}

export function toulbar2Version(): string {
  return find(execFileSync('toulbar2', ['-help'], { encoding: 'utf8' }), /version : (\S+)/)[1]!;
}

function find(output: string, pattern: RegExp): RegExpExecArray {
  const found = pattern.exec(output);
  if (!found) throw new Error(`toulbar2 did not print ${pattern}:\n${output.slice(-1000)}`);
  return found;
}
