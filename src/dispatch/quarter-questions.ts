import { ConflictError, type FieldError, InvalidInputError } from '../shared/domain-error.js';
import type { AskedAbout } from '../visits/visit-time.dto.js';

/** What is asked about one visit of several, by where it stands in the list. */
export interface AskedOfVisit {
  confirm: readonly AskedAbout[];
  /** Visits with which it clashes. */
  visitIds: readonly string[];
  errors: FieldError[];
}

interface AskedDetails {
  confirm?: readonly AskedAbout[];
  visitIds?: readonly string[];
  errors?: readonly FieldError[];
}

/** What a refusal only asks about; null: it is refused whatever is meant. */
export function askedOfVisit(index: number, error: unknown): AskedOfVisit | null {
  if (!(error instanceof ConflictError) && !(error instanceof InvalidInputError)) return null;
  const { confirm = [], visitIds = [], errors = [] } = error.details as AskedDetails;
  if (confirm.length === 0) return null;
  return { confirm, visitIds, errors: errors.map((one) => fieldAt(index, one)) };
}

/** All questions as one; days that were not agreed make the input wrong, as those of a single visit do. `own`: visits of the list itself. */
export function askAtOnce(asked: readonly AskedOfVisit[], own: readonly string[]): Error {
  const confirm = [...new Set(asked.flatMap((one) => one.confirm))];
  const clashing = asked.flatMap(({ visitIds }) => visitIds).filter((id) => !own.includes(id));
  const visitIds = [...new Set(clashing)];
  const errors = asked.flatMap((one) => one.errors);
  if (confirm.includes('outside-hours')) {
    return new InvalidInputError(errors, false, { confirm, visitIds });
  }
  const said = [...new Set(errors.map(({ reason }) => reason))].join(' ');
  return new ConflictError(`${said} If it is meant so, send it with \`confirmed\`.`, {
    confirm,
    visitIds,
    errors,
  });
}

/** What was refused of one visit, by where it stands in the list. */
export function atVisit(index: number, error: unknown): unknown {
  if (error instanceof ConflictError) {
    const errors = [{ field: `/visits/${index}/on`, reason: error.message }];
    return new ConflictError(error.message, { ...error.details, errors });
  }
  if (!(error instanceof InvalidInputError)) return error;
  const { errors: _own, ...more } = error.details;
  const errors = error.errors.map((one) => fieldAt(index, one));
  return new InvalidInputError(errors, error.endedEarly, more);
}

function fieldAt(index: number, { field, ...rest }: FieldError): FieldError {
  return { ...rest, field: `/visits/${index}${field}` };
}
