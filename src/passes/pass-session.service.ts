import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { RetentionService } from '../jobs/retention.service.js';
import { Clock } from '../shared/clock.js';
import { EndedError, UnauthenticatedError } from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import type { PassSessionDto } from './pass.dto.js';
import { SecretService } from '../access/secret.service.js';
import { PASS_ENDED, SESSION_LIMITS } from '../access/session-rules.js';
import { SitePassRepository } from './site-pass.repository.js';

/** Exchanges a pass for a short session, so that the pass itself travels once. */
@Injectable()
export class PassSessionService {
  constructor(
    private readonly repository: SitePassRepository,
    private readonly secrets: SecretService,
    private readonly transaction: FirmTransaction,
    private readonly clock: Clock,
    retention: RetentionService,
  ) {
    retention.add(() => repository.deleteSessionsOver(undefined, clock.now()));
  }

  async open(shown: string): Promise<{ secret: string; session: PassSessionDto }> {
    const secretHash = this.secrets.hash(shown);
    const pass = await this.transaction.runFinding('secret_hash', secretHash, () =>
      this.repository.findShown(secretHash),
    );
    if (pass === null) throw new UnauthenticatedError('This is no pass; scan the poster again.');
    if (pass.endedAt !== null) throw new EndedError(PASS_ENDED);
    const secret = this.secrets.create();
    const now = this.clock.now();
    const endsAt = new Date(now.getTime() + SESSION_LIMITS.pass.absoluteMs);
    await this.transaction.run(pass.firmId, 'write', async () => {
      await this.repository.deleteSessionsOver(pass.id, now);
      await this.repository.insertSession({
        id: idOrNew(undefined),
        secretHash: this.secrets.hash(secret),
        passId: pass.id,
        lastSeenAt: now,
        endsAt,
      });
    });
    return { secret, session: { csrfToken: this.secrets.csrfToken(secret), endsAt } };
  }
}
