import { ask } from '../parts/ask.js';
import { Failure } from '../parts/failure.js';
import type { Kept } from '../parts/kept.js';
import { forgetId, repeatId } from '../parts/repeat-id.js';
import { hideSecret } from '../parts/shown-secret.js';
import type { OpenedPass, PassSite } from '../parts/wire.js';

const CSRF_TOKEN = 'csrf token';

/**
 * One sitting with a pass: the pass is exchanged for a cookie, which this script cannot read, and a token that is sent
 * with whatever changes something. The pass itself stays in memory alone, for when the sitting ends while the page is open.
 */
export class Sitting {
  private csrfToken: string | undefined;

  constructor(
    private pass: string | undefined,
    readonly kept: Kept,
    private readonly newId: () => string,
  ) {
    this.csrfToken = kept.read(CSRF_TOKEN);
  }

  /** Begins or goes on, and reads the site. */
  async open(): Promise<PassSite> {
    if (this.pass !== undefined) await this.exchange(this.pass);
    if (this.csrfToken === undefined) throw new Failure(401, 'No sitting has begun in this tab.');
    return this.read('/site');
  }

  read<Answer>(path: string): Promise<Answer> {
    return this.askAgainWhenOver(() => ask('GET', `/pass${path}`));
  }

  /** Sends under an id that stays the same until the same content was answered. */
  async send<Answer>(path: string, content: object): Promise<Answer> {
    const id = repeatId(this.kept, path, content, this.newId);
    const answer = await this.askAgainWhenOver<Answer>(() =>
      ask('POST', `/pass${path}`, { body: { id, ...content }, csrfToken: this.csrfToken }),
    );
    forgetId(this.kept, path);
    return answer;
  }

  private async exchange(pass: string): Promise<void> {
    try {
      const session = await ask<OpenedPass>('POST', '/pass/session', { body: { pass } });
      this.csrfToken = session.csrfToken;
      this.kept.write(CSRF_TOKEN, session.csrfToken);
      hideSecret();
    } catch (error) {
      // Whoever was not answered may still load the page again; a pass that is none is worth nothing.
      const isAnswered = error instanceof Failure && [401, 410].includes(error.status);
      if (isAnswered) {
        hideSecret();
        this.pass = undefined;
      }
      throw error;
    }
  }

  private async askAgainWhenOver<Answer>(work: () => Promise<Answer>): Promise<Answer> {
    try {
      return await work();
    } catch (error) {
      const isOver = error instanceof Failure && error.status === 401;
      if (!isOver || this.pass === undefined) throw error;
      await this.exchange(this.pass);
      return work();
    }
  }
}
