import { Injectable, Logger, type OnApplicationShutdown } from '@nestjs/common';
import pg from 'pg';
import { DataSource } from 'typeorm';
import type { Change } from './heard-changes.js';

const CHANNEL = 'lastheard_changes';
const AGAIN_MS = 2_000;

export interface Hearing {
  onChange: (change: Change) => void;
  /** The connection was lost: what was told meanwhile is not known. */
  onGap: () => void;
}

/** The process's one connection that hears of every change, begun by the first who wants to hear. */
@Injectable()
export class ChangeListenerRepository implements OnApplicationShutdown {
  private readonly logger = new Logger('Changes');
  private client?: pg.Client;
  private begun?: Promise<void>;
  private timer?: NodeJS.Timeout;
  private isEnded = false;

  constructor(private readonly dataSource: DataSource) {}

  /** Resolves once it hears. */
  begin(hearing: Hearing): Promise<void> {
    this.begun ??= this.connect(hearing).catch((error: unknown) => {
      this.begun = undefined;
      throw error;
    });
    return this.begun;
  }

  private async connect(hearing: Hearing): Promise<void> {
    const { url } = this.dataSource.options as { url: string };
    const client = new pg.Client({
      connectionString: url,
      application_name: 'lastheard changes',
      keepAlive: true,
    });
    client.on('notification', ({ payload = '' }) =>
      hearing.onChange(JSON.parse(payload) as Change),
    );
    client.on('error', () => this.lose(client, hearing));
    client.on('end', () => this.lose(client, hearing));
    this.client = client;
    await client.connect();
    await client.query(`LISTEN ${CHANNEL}`);
  }

  private lose(client: pg.Client, hearing: Hearing): void {
    if (this.isEnded || this.client !== client) return;
    this.client = undefined;
    hearing.onGap();
    this.retry(hearing);
  }

  private retry(hearing: Hearing): void {
    this.timer = setTimeout(() => {
      this.connect(hearing).catch((error: unknown) => {
        this.logger.warn(`Not heard of changes: ${String(error)}`);
        this.client = undefined;
        if (!this.isEnded) this.retry(hearing);
      });
    }, AGAIN_MS);
    this.timer.unref();
  }

  async onApplicationShutdown(): Promise<void> {
    this.isEnded = true;
    clearTimeout(this.timer);
    await this.begun?.catch(() => undefined);
    await this.client?.end().catch(() => undefined);
  }
}
