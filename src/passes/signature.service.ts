import { Injectable } from '@nestjs/common';
import { Clock } from '../shared/clock.js';
import { ConflictError, ForbiddenError, InvalidInputError } from '../shared/domain-error.js';
import { happenedAt } from '../shared/happened-at.js';
import { idOrNew } from '../shared/new-id.js';
import { VisitService } from '../visits/visit.service.js';
import type { Principal } from '../people/principal.js';
import type { SignatureDto, SignDto } from './signature.dto.js';
import type { Signature } from './signature.entity.js';
import { SignatureRepository } from './signature.repository.js';

/** Signing for the work of a visit: with a pass, as a client's person, or on the phone that a technician hands over. */
@Injectable()
export class SignatureService {
  constructor(
    private readonly repository: SignatureRepository,
    private readonly visits: VisitService,
    private readonly clock: Clock,
  ) {}

  async sign(
    { passId, personId, personName, role }: Principal,
    visitId: string,
    { id, name, remark, drawn = null, signedAt: saidAt }: SignDto,
  ): Promise<SignatureDto> {
    const visit = await this.visits.get(visitId);
    // Whoever was there says so, and no colleague.
    if (role === 'technician' && visit.technicianId !== personId) {
      throw new ForbiddenError('A technician takes the signature of their own visit.');
    }
    if (visit.state !== 'done') {
      throw new ConflictError('Only work that is done can be signed for.', { state: visit.state });
    }
    const signedAt = happenedAt('/signedAt', saidAt, this.clock.now());
    if (saidAt !== undefined) checkSignedAt(signedAt, role === 'technician', visit.startedAt);
    await this.repository.lock(visitId);
    if ((await this.repository.listOfVisits([visitId])).length > 0) {
      throw new ConflictError('Somebody has signed for this visit already.');
    }
    const signature = {
      id: idOrNew(id),
      visitId,
      visitVersion: visit.version,
      name,
      remark,
      drawn,
      signedAt,
      takenBy: role === 'technician' ? personName : null,
    };
    await this.repository.insert({ ...signature, passId, personId });
    return signature;
  }

  async list(visitId: string): Promise<SignatureDto[]> {
    await this.visits.get(visitId);
    return (await this.repository.listOfVisits([visitId])).map(toDto);
  }

  /** Which of some visits somebody has signed for. */
  async signedOf(visitIds: string[]): Promise<Set<string>> {
    const signatures = await this.repository.listOfVisits(visitIds);
    return new Set(signatures.map(({ visitId }) => visitId));
  }
}

/** Phones' clocks and ours. */
const CLOCKS_DIFFER_MS = 10 * 60_000;

/** A phone without a signal sends it later; whoever signs on a page of the service signs now. */
function checkSignedAt(signedAt: Date, isOnPhone: boolean, startedAt: Date | null): void {
  const refuse = (reason: string) => new InvalidInputError([{ field: '/signedAt', reason }]);
  if (!isOnPhone)
    throw refuse('is for the phone that a technician hands over: left out, it is now');
  if (startedAt !== null && signedAt.getTime() < startedAt.getTime() - CLOCKS_DIFFER_MS) {
    throw refuse(`is before the visit began, at ${startedAt.toISOString()}`);
  }
}

function toDto({ firmId, passId, personId, ...signature }: Signature): SignatureDto {
  return signature;
}
