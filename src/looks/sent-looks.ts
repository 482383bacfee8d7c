import type { FieldError } from '../shared/domain-error.js';
import type { SeenDto, TakeLooksDto } from './look.dto.js';

/** A look as it was sent, with where it stands in what was sent. */
export interface SentSeen {
  look: SeenDto;
  field: string;
}

/** The looks of a request: one whose fields stand by themselves, or a list. */
export function readSent({
  place,
  part,
  group = null,
  seen,
  looks,
}: Pick<TakeLooksDto, 'place' | 'part' | 'group' | 'seen' | 'looks'>):
  { sent: SentSeen[] } | { errors: FieldError[] } {
  const one = { place, part, seen };
  const given = Object.values({ ...one, group }).some((value) => value != null);
  if (looks != null) {
    const reason = 'is beside a look of its own: send one, or a list';
    if (given) return { errors: [{ field: '/looks', reason }] };
    return { sent: looks.map((look, at) => ({ look, field: `/looks/${at}` })) };
  }
  if (place != null && part != null && seen != null)
    return { sent: [{ look: { place, part, group, seen }, field: '' }] };
  const missing = Object.entries(one).filter(([, value]) => value == null);
  const reason = 'is missing: a look says where, at which part, and what was seen';
  return { errors: missing.map(([name]) => ({ field: `/${name}`, reason })) };
}
