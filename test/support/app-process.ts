import { ChildProcess, SpawnOptions, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';

const SCRIPT = fileURLToPath(new URL('run-built-in-server.js', import.meta.url));

export interface AppAnswer {
  appUrl?: string;
  ownerUrl?: string;
  /** What the launcher logged so far. */
  lines?: string[];
  /** What the server said while the app was draining. */
  answer?: number;
  failure?: string;
  reason?: string;
}

/** Another process that uses the built-in server, in a process group of its own like a shell's job. */
export class AppProcess {
  private readonly child: ChildProcess;
  private readonly answers: AsyncIterator<string>;

  constructor(dataDirectory: string, options: Pick<SpawnOptions, 'env' | 'uid' | 'gid'> = {}) {
    this.child = spawn(process.execPath, [SCRIPT, dataDirectory], {
      ...options,
      cwd: '/',
      detached: true,
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    this.answers = createInterface({ input: this.child.stdout! })[Symbol.asyncIterator]();
  }

  async nextAnswer(): Promise<AppAnswer> {
    const { value, done } = await this.answers.next();
    if (done === true) throw new Error('the process ended without an answer');
    return JSON.parse(value) as AppAnswer;
  }

  /** Ctrl-C in a terminal: the signal goes to every process of the group. */
  interruptGroup(): void {
    process.kill(-this.child.pid!, 'SIGINT');
  }

  async kill(): Promise<void> {
    this.child.kill('SIGKILL');
    await this.ended();
  }

  async ended(): Promise<void> {
    if (this.child.exitCode === null && this.child.signalCode === null) {
      await once(this.child, 'exit');
    }
  }
}
