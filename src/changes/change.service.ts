import { randomBytes } from 'node:crypto';
import { Injectable, type BeforeApplicationShutdown } from '@nestjs/common';
import { BusyError } from '../shared/domain-error.js';
import { ChangeListenerRepository } from './change-listener.repository.js';
import type { ToldChangesDto } from './change.dto.js';
import { HeardChanges, type NumberedChange } from './heard-changes.js';

/** So many changes are remembered for whoever was away. */
const REMEMBERED = 2_000;
/** So many listen to one process. */
const MOST_LISTENERS = 1_000;
const RETRY_AFTER_SECONDS = 30;

/** Somebody who hears of the changes of a firm; costs no connection to the database. */
export interface Listener {
  firmId: string;
  tell: (change: NumberedChange) => void;
  /** Something may have been missed. */
  tellGap: (last: string) => void;
  end: () => void;
}

@Injectable()
export class ChangeService implements BeforeApplicationShutdown {
  private heard = begin();
  private readonly listeners = new Set<Listener>();
  private isOver = false;

  constructor(private readonly source: ChangeListenerRepository) {}

  /** What changed since, as far as this process heard of it. */
  async since(firmId: string, after: string | undefined): Promise<ToldChangesDto> {
    await this.hear();
    const missed = after === undefined ? null : this.heard.since(after, firmId);
    return {
      items: (missed ?? []).map(({ kind, id }) => ({ kind, id })),
      last: this.heard.last,
      isWhole: missed !== null,
    };
  }

  /** Tells the listener what it missed and then all that comes. Gives back how to leave. */
  async listen(listener: Listener, after: string | undefined): Promise<() => void> {
    if (this.isOver || this.listeners.size >= MOST_LISTENERS)
      throw new BusyError(RETRY_AFTER_SECONDS);
    this.listeners.add(listener);
    const leave = () => void this.listeners.delete(listener);
    try {
      await this.hear();
      // Once the app stops nobody would end it, and the app would wait for it.
      if (this.isOver) throw new BusyError(RETRY_AFTER_SECONDS);
    } catch (error) {
      leave();
      throw error;
    }
    const missed = after === undefined ? [] : this.heard.since(after, listener.firmId);
    if (missed === null) listener.tellGap(this.heard.last);
    else for (const change of missed) listener.tell(change);
    return leave;
  }

  /** How many listen to this process. */
  get listening(): number {
    return this.listeners.size;
  }

  beforeApplicationShutdown(): void {
    this.isOver = true;
    for (const { end } of this.listeners) end();
  }

  private hear(): Promise<void> {
    return this.source.begin({
      onChange: (change) => {
        const numbered = this.heard.hear(change);
        for (const one of this.listeners) if (one.firmId === change.firmId) one.tell(numbered);
      },
      onGap: () => {
        this.heard = begin();
        for (const one of this.listeners) one.tellGap(this.heard.last);
      },
    });
  }
}

function begin(): HeardChanges {
  return new HeardChanges(randomBytes(6).toString('hex'), REMEMBERED);
}
