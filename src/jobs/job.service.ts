import {
  type BeforeApplicationShutdown,
  Injectable,
  Logger,
  type OnApplicationBootstrap,
} from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { JobData, JobKind } from './job-kinds.js';
import { JobLoop, type JobHandler } from './job-loop.service.js';
import { JobRepository } from './job.repository.js';

/** Work that is done later, with retries: asked for within a transaction, done by whichever process is free. */
@Injectable()
export class JobService implements OnApplicationBootstrap, BeforeApplicationShutdown {
  private readonly logger = new Logger('Jobs');
  private readonly loops = new Map<string, JobLoop>();
  private isRunning = false;
  private isResting = false;

  constructor(
    private readonly repository: JobRepository,
    private readonly transaction: FirmTransaction,
  ) {}

  /** Within the firm's transaction: with its commit it will be done, without never. */
  async enqueue<Kind extends JobKind>(
    kind: Kind,
    data: JobData[Kind],
    afterSeconds = 0,
  ): Promise<void> {
    await this.repository.insert(kind, data, afterSeconds);
    this.transaction.afterCommit(() => void this.loops.get(kind)?.wake());
  }

  /** Those of what was asked for that are yet to be done, for the first time or once more; within the firm's transaction. */
  async listWaiting<Kind extends JobKind>(
    kind: Kind,
    asked: readonly JobData[Kind][],
  ): Promise<JobData[Kind][]> {
    if (asked.length === 0) return [];
    return (await this.repository.listWaiting(kind, asked)) as JobData[Kind][];
  }

  /** Says who does one kind of work; before the app has started. */
  handle<Kind extends JobKind>(kind: Kind, handler: JobHandler<JobData[Kind]>): void {
    if (this.loops.has(kind)) throw new Error(`Two would do the same work: ${kind}`);
    const { repository, transaction, logger } = this;
    const loop = new JobLoop(kind, handler as JobHandler<unknown>, {
      repository,
      transaction,
      logger,
    });
    this.loops.set(kind, loop);
  }

  async onApplicationBootstrap(): Promise<void> {
    await this.repository.start((error) => this.logger.error(error.stack));
    for (const loop of this.loops.values()) loop.start();
    this.isRunning = true;
  }

  /** Ends what is being done, takes nothing more. */
  async beforeApplicationShutdown(): Promise<void> {
    if (!this.isRunning) return;
    this.isRunning = false;
    await Promise.all([...this.loops.values()].map((loop) => loop.stop()));
    await this.repository.stop();
  }

  count(): Promise<{ kind: string; state: string; count: number }[]> {
    return this.repository.countByState();
  }

  /** From now on nothing is done but by `settle`: for tests whose subject is not what jobs do. */
  async rest(): Promise<void> {
    await Promise.all([...this.loops.values()].map((loop) => loop.stop()));
    this.isResting = true;
  }

  /** Resolves when nothing is due or being done; for tests and the demo. */
  async settle(): Promise<void> {
    while (this.isRunning) {
      const pending = await this.repository.listPending([...this.loops.keys()]);
      if (pending.length === 0) return;
      const loops = [...this.loops].flatMap(([kind, loop]) => (pending.includes(kind) ? loop : []));
      if (this.isResting) for (const loop of loops) await loop.doAllDue();
      else await Promise.all(loops.map((loop) => loop.wake()));
    }
  }
}
