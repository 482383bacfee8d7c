import { Injectable } from '@nestjs/common';
import { AuditService } from '../audit/audit.service.js';
import type { AuditedRequest } from '../audit/audited-request.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { UnauthenticatedError } from '../shared/domain-error.js';
import type { FirstOwnerDto } from './first-start.dto.js';
import { SecretService } from './secret.service.js';
import { SetUpService } from './set-up.service.js';

const OVER =
  'This link was used, or is of an earlier start: the service writes a new one to its log while nobody can sign in.';

/** Lets whoever reads the service's log make the first owner, once, while nobody can sign in. */
@Injectable()
export class FirstStartService {
  /** In memory alone: whoever starts the service anew has another. */
  private open?: { firmId: string; codeHash: string };

  constructor(
    private readonly setUp: SetUpService,
    private readonly secrets: SecretService,
    private readonly transaction: FirmTransaction,
    private readonly audit: AuditService,
  ) {}

  /** The code for the first owner of the firm; undefined where somebody can sign in already. */
  async begin(firmId: string): Promise<string | undefined> {
    if (await this.setUp.hasSignIns(firmId)) return undefined;
    const code = this.secrets.create();
    this.open = { firmId, codeHash: this.secrets.hash(code) };
    return code;
  }

  /** Nobody is told what another process has open. */
  async isOpen(): Promise<boolean> {
    return this.open !== undefined && !(await this.setUp.hasSignIns(this.open.firmId));
  }

  /** Makes the owner; the code is used up unless what was given will not do. */
  async use({ code, ...owner }: FirstOwnerDto, request: AuditedRequest): Promise<void> {
    const { open } = this;
    if (open?.codeHash !== this.secrets.hash(code)) throw new UnauthenticatedError(OVER);
    // Taken before anything is waited for: of two at once one has it.
    delete this.open;
    let personId: string | undefined;
    try {
      personId = await this.setUp.ensureOwner(open.firmId, owner);
    } catch (error) {
      this.open = open;
      throw error;
    }
    const made = personId;
    if (made === undefined) throw new UnauthenticatedError(OVER);
    await this.transaction.run(open.firmId, 'write', () => {
      this.audit.signingIn(made, request, 'done');
      return Promise.resolve();
    });
  }
}
