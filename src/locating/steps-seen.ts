import type { EndedStep } from '../tickets/ticket-log.js';

/** Endings of steps in a log, since its last mending. */
export function stepsSeen(
  entries: readonly { kind: string; happenedAt: Date; details: { step?: EndedStep | undefined } }[],
): EndedStep[] {
  const mendings = entries.filter(({ kind }) => kind === 'mending');
  const mendedAt = Math.max(...mendings.map(({ happenedAt }) => happenedAt.getTime()));
  return entries
    .filter(({ happenedAt }) => happenedAt.getTime() > mendedAt)
    .flatMap(({ details }) => details.step ?? []);
}
