import { existsSync, mkdirSync, readFileSync, rmdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** Short, so that nobody waits long for the next turn. */
const PERIOD_US = 20_000;

const PARENTS = [
  { place: '/sys/fs/cgroup/cpu', quota: 'cpu.cfs_quota_us', period: 'cpu.cfs_period_us' },
  // The second version has both in one file, and the controller must have been handed down to where it is asked for.
  { place: '/sys/fs/cgroup', quota: 'cpu.max', period: undefined },
] as const;

const SIGNALS = ['SIGINT', 'SIGTERM'] as const;

/** Processes that may have a fixed part of a processor each, as far as the kernel can be asked to see to it. */
export class ProcessorShares {
  private readonly groups: string[] = [];

  private constructor(private readonly parent: (typeof PARENTS)[number]) {}

  /** Runs the work with what gives shares, and takes them back; where there are none, says why. */
  static async within(
    work: (shares: ProcessorShares) => Promise<void>,
  ): Promise<string | undefined> {
    const parent = PARENTS.find(({ place }) => existsSync(join(place, 'cgroup.procs')));
    if (parent === undefined) return 'there are no control groups here';
    const shares = new ProcessorShares(parent);
    try {
      shares.add(1);
    } catch (error) {
      shares.end();
      return `control groups cannot be written here (${(error as Error).message})`;
    }
    const interrupted = () => {
      shares.end();
      process.exit(1);
    };
    for (const signal of SIGNALS) process.once(signal, interrupted);
    try {
      await work(shares);
    } finally {
      for (const signal of SIGNALS) process.off(signal, interrupted);
      shares.end();
    }
    return undefined;
  }

  /** From now on the process has no more than this part of one processor, by itself. */
  give(pid: number, part: number): void {
    writeFileSync(join(this.add(part), 'cgroup.procs'), String(pid));
  }

  private add(part: number): string {
    const { place, quota, period } = this.parent;
    const group = join(place, `lastheard-bench-${process.pid}-${this.groups.length}`);
    mkdirSync(group);
    this.groups.push(group);
    const microseconds = Math.round(PERIOD_US * part);
    if (period === undefined) writeExisting(join(group, quota), `${microseconds} ${PERIOD_US}`);
    else {
      writeExisting(join(group, period), String(PERIOD_US));
      writeExisting(join(group, quota), String(microseconds));
    }
    return group;
  }

  private end(): void {
    for (const group of this.groups) {
      const pids = readFileSync(join(group, 'cgroup.procs'), 'utf8').split('\n').filter(Boolean);
      for (const pid of pids) writeFileSync(join(this.parent.place, 'cgroup.procs'), pid);
      rmdirSync(group);
    }
  }
}

/** Such files are there or are not; nobody makes them. */
function writeExisting(file: string, text: string): void {
  writeFileSync(file, text, { flag: 'r+' });
}
