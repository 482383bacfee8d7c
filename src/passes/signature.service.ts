import { Injectable } from '@nestjs/common';
import { Clock } from '../shared/clock.js';
import { ConflictError, ForbiddenError } from '../shared/domain-error.js';
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
    { id, name, remark, drawn = null }: SignDto,
  ): Promise<SignatureDto> {
    const visit = await this.visits.get(visitId);
    // Whoever was there says so, and no colleague.
    if (role === 'technician' && visit.technicianId !== personId) {
      throw new ForbiddenError('A technician takes the signature of their own visit.');
    }
    if (visit.state !== 'done') {
      throw new ConflictError('Only work that is done can be signed for.', { state: visit.state });
    }
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
      signedAt: this.clock.now(),
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

function toDto({ firmId, passId, personId, ...signature }: Signature): SignatureDto {
  return signature;
}
