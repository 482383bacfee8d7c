import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';

/** The real program, as `npm start` runs it, on a port that it picks unless it is told one. */
export class MainProcess {
  /** What it logged and what it complained of, so far. */
  out = '';
  err = '';
  private readonly child: ChildProcess;

  constructor(env: NodeJS.ProcessEnv) {
    this.child = spawn(process.execPath, ['dist/main.js'], {
      env: { PATH: process.env.PATH, PORT: '0', ...env },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    this.child.stdout!.setEncoding('utf8').on('data', (part: string) => (this.out += part));
    this.child.stderr!.setEncoding('utf8').on('data', (part: string) => (this.err += part));
  }

  /** Where it serves. */
  async address(): Promise<string> {
    for (;;) {
      const address = /serves on (\S+)/.exec(this.out)?.[1];
      if (address !== undefined) return address;
      if (this.hasEnded) throw new Error(`It ended before it served: ${this.err}`);
      await new Promise(setImmediate);
    }
  }

  /** The code that it ends with; null where a signal ended it. */
  async ended(): Promise<number | null> {
    if (!this.hasEnded) await once(this.child, 'close');
    return this.child.exitCode;
  }

  kill(signal: NodeJS.Signals): void {
    this.child.kill(signal);
  }

  private get hasEnded(): boolean {
    return this.child.exitCode !== null || this.child.signalCode !== null;
  }
}
