import type { Logger } from '@nestjs/common';
import type { FirmTransaction } from '../database/firm-transaction.js';
import type { FetchedJob, JobRepository } from './job.repository.js';

/** How soon another process's job is seen; one's own wake it at once. */
const POLLED_EACH_MS = 2000;

export interface Job<Data> {
  id: string;
  firmId: string;
  data: Data;
  /**
   * Ends the job: its effect is done in one transaction of the firm with the mark that it is done. Both are kept or
   * neither, so it has its effect once, whoever dies when.
   */
  finish: (effect: () => Promise<void>) => Promise<void>;
}

/** What throws is tried again. */
export type JobHandler<Data> = (job: Job<Data>) => Promise<void>;

/** Another has taken the job meanwhile, because this one was thought dead. */
class JobTakenOver extends Error {}

interface Means {
  repository: JobRepository;
  transaction: FirmTransaction;
  logger: Logger;
}

/** Does the jobs of one kind, one after the other. */
export class JobLoop {
  private isStopping = false;
  private isAwake = false;
  private rouse: () => void = () => undefined;
  private running: Promise<void> = Promise.resolve();
  private sleeping: Promise<void> = Promise.resolve();
  private round: Promise<void> = Promise.resolve();

  constructor(
    private readonly kind: string,
    private readonly handler: JobHandler<unknown>,
    private readonly means: Means,
  ) {}

  start(): void {
    this.running = this.run();
  }

  /** Looks for jobs at once; resolves when it has done those that it found. */
  async wake(): Promise<void> {
    this.isAwake = true;
    this.rouse();
    // Who slept begins a round with that.
    await this.sleeping;
    await this.round;
  }

  async stop(): Promise<void> {
    this.isStopping = true;
    this.rouse();
    await this.running;
    this.isStopping = false;
  }

  private async run(): Promise<void> {
    while (!this.isStopping) {
      this.isAwake = false;
      this.round = this.doAllDue();
      await this.round;
      if (!this.isStopping && !this.isAwake) await this.sleep();
    }
  }

  /** Until nothing is due. */
  async doAllDue(): Promise<void> {
    try {
      while (!this.isStopping) {
        const job = await this.means.repository.fetch(this.kind);
        if (job === undefined) return;
        await this.do(job);
      }
    } catch (error) {
      this.means.logger.error(`${this.kind}: ${String(error)}`);
    }
  }

  private async do(fetched: FetchedJob): Promise<void> {
    const { id, firmId, data } = fetched;
    const { repository, transaction, logger } = this.means;
    let isFinished = false;
    const finish = async (effect: () => Promise<void>) => {
      await transaction.run(firmId, 'write', async () => {
        await effect();
        if (!(await repository.complete(this.kind, fetched))) throw new JobTakenOver();
      });
      isFinished = true;
    };
    try {
      await this.handler({ id, firmId, data, finish });
      if (!isFinished) throw new Error('Its handler did not finish it');
    } catch (error) {
      if (error instanceof JobTakenOver || isFinished) return;
      logger.warn(`${this.kind} ${id} of ${firmId}: ${String(error)}`);
      await repository.fail(this.kind, id, String(error));
    }
  }

  private sleep(): Promise<void> {
    return (this.sleeping = new Promise((resolve) => {
      const timer = setTimeout(resolve, POLLED_EACH_MS);
      this.rouse = () => {
        clearTimeout(timer);
        resolve();
      };
    }));
  }
}
