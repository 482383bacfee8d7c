import type { Principal } from '../people/principal.js';
import { type FieldError, InvalidInputError } from '../shared/domain-error.js';
import type { CreateVisitDto } from './visit.dto.js';

/** Who asks for something to be planned. */
export type Asker = Pick<Principal, 'role' | 'personId'>;

/** A visit as it may be planned by who asks: a technician on call takes tickets, and for nobody else. */
export function mayPlan(visit: CreateVisitDto, { role, personId }: Asker): CreateVisitDto {
  if (role !== 'technician') return visit;
  const { kind, upkeep, ticketIds } = visit;
  const technicianId = visit.technicianId ?? personId;
  const errors: FieldError[] = [];
  if (kind !== 'call-out')
    errors.push({ field: '/kind', reason: 'can be call-out, where a technician takes a ticket' });
  if (upkeep) errors.push({ field: '/upkeep', reason: 'is planned by the office' });
  if (ticketIds.length === 0)
    errors.push({ field: '/ticketIds', reason: 'are missing: a technician takes tickets' });
  if (technicianId !== personId) errors.push(FOR_ONESELF);
  if (errors.length > 0) throw new InvalidInputError(errors);
  return { ...visit, technicianId };
}

/** A change as it may be made by who asks: a technician takes a visit on, and changes nothing else of it. */
export function mayChange(patch: Record<string, unknown>, { role, personId }: Asker): void {
  if (role !== 'technician') return;
  const errors: FieldError[] = Object.keys(patch)
    .filter((field) => field !== 'technicianId')
    .map((field) => ({ field: `/${field}`, reason: 'is changed by the office' }));
  if (patch['technicianId'] !== personId) errors.push(FOR_ONESELF);
  if (errors.length > 0) throw new InvalidInputError(errors);
}

const FOR_ONESELF: FieldError = {
  field: '/technicianId',
  reason: 'can be oneself alone, where a technician takes it',
};
