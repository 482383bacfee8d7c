import { ask, type Asked, type Method } from './ask.js';
import { Failure } from './failure.js';
import type { Listed, SignedIn } from './wire.js';

/** Lists are read to their end, or as far as this many pages of 200. */
const MOST_PAGES = 25;

/** The service as somebody who is signed in asks it. */
export class Service {
  constructor(
    readonly session: SignedIn,
    /** Told once the session is over. */
    private readonly onOver: () => void,
  ) {}

  read<Answer>(path: string): Promise<Answer> {
    return this.orOver(ask<Answer>('GET', path));
  }

  /** Undefined where there is none. */
  async find<Answer>(path: string): Promise<Answer | undefined> {
    try {
      return await this.read<Answer>(path);
    } catch (error) {
      if (error instanceof Failure && error.status === 404) return undefined;
      throw error;
    }
  }

  send<Answer>(method: Exclude<Method, 'GET'>, path: string, asked: Asked = {}): Promise<Answer> {
    const { csrfToken } = this.session;
    return this.orOver(ask<Answer>(method, path, { ...asked, csrfToken }));
  }

  /** All of a list. `isWhole`: there was no more than is read. */
  async list<Item>(path: string): Promise<{ items: Item[]; isWhole: boolean }> {
    const items: Item[] = [];
    let after = '';
    for (let page = 0; page < MOST_PAGES; page++) {
      const join = path.includes('?') ? '&' : '?';
      const answer = await this.read<Listed<Item>>(`${path}${join}limit=200${after}`);
      items.push(...answer.items);
      if (answer.next === null) return { items, isWhole: true };
      after = `&after=${encodeURIComponent(answer.next)}`;
    }
    return { items, isWhole: false };
  }

  private async orOver<Answer>(work: Promise<Answer>): Promise<Answer> {
    try {
      return await work;
    } catch (error) {
      if (error instanceof Failure && error.status === 401) this.onOver();
      throw error;
    }
  }
}
