import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';

/** The real program, as `npm start` runs it, on a port that it picks unless it is told one. */
export class MainProcess {
  /** What it logged and what it complained of, so far. */
  out = '';
  err = '';
  private readonly child: ChildProcess;
  /** It has ended, and all that it said is read. */
  private readonly closed: Promise<unknown>;
  /** Called when it said something, and when it has ended. */
  private hear = () => {};

  constructor(env: NodeJS.ProcessEnv) {
    this.child = spawn(process.execPath, ['dist/main.js'], {
      env: { PATH: process.env.PATH, PORT: '0', ...env },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    this.child.stdout!.setEncoding('utf8').on('data', (part: string) => {
      this.out += part;
      this.hear();
    });
    this.child.stderr!.setEncoding('utf8').on('data', (part: string) => (this.err += part));
    this.closed = once(this.child, 'close').then(() => this.hear());
  }

  /** Where it serves. */
  async address(): Promise<string> {
    for (;;) {
      const address = /serves on (\S+)/.exec(this.out)?.[1];
      if (address !== undefined) return address;
      if (this.hasEnded) throw new Error(`It ended before it served: ${this.err}`);
      // Without looking again and again, for which the processor would be taken from it.
      await new Promise<void>((heard) => (this.hear = heard));
    }
  }

  /** The code that it ends with; null where a signal ended it. */
  async ended(): Promise<number | null> {
    await this.closed;
    return this.child.exitCode;
  }

  kill(signal: NodeJS.Signals): void {
    this.child.kill(signal);
  }

  private get hasEnded(): boolean {
    return this.child.exitCode !== null || this.child.signalCode !== null;
  }
}
