import { type BeforeApplicationShutdown, Injectable, Logger } from '@nestjs/common';

/** Work whose answer nobody waits for. */
@Injectable()
export class BackgroundService implements BeforeApplicationShutdown {
  private readonly logger = new Logger('Background');
  private readonly underWay = new Set<Promise<void>>();

  /** A failure of the work is for the log alone. */
  run(work: Promise<void>): void {
    const watched = work
      .catch((error: unknown) => this.logger.error(error instanceof Error ? error.stack : error))
      .finally(() => this.underWay.delete(watched));
    this.underWay.add(watched);
  }

  /** Resolves when nothing is under way. */
  async settle(): Promise<void> {
    while (this.underWay.size > 0) await Promise.all(this.underWay);
  }

  beforeApplicationShutdown(): Promise<void> {
    return this.settle();
  }
}
