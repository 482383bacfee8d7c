const MINUTE = 60_000;
const HOUR = 60 * MINUTE;

/** How long a session lasts unused, and at most. A pass's session is for one sitting. */
export const SESSION_LIMITS = {
  session: { idleMs: 12 * HOUR, absoluteMs: 14 * 24 * HOUR },
  pass: { idleMs: 1 * HOUR, absoluteMs: 12 * HOUR },
} as const;

/** Said to whoever comes with a pass that was ended: on a poster that hangs in the office still. */
export const PASS_ENDED =
  'This link was replaced and does not work any more. Please look for a newer poster, or ring the service firm: your report is welcome there.';

/** Being used is written down at most this often, so that reads stay reads. */
const TOUCH_EVERY_MS = 5 * MINUTE;

export function isSessionOver(
  kind: keyof typeof SESSION_LIMITS,
  { lastSeenAt, endsAt }: { lastSeenAt: Date; endsAt: Date },
  now: Date,
): boolean {
  const idleUntil = lastSeenAt.getTime() + SESSION_LIMITS[kind].idleMs;
  return now.getTime() >= Math.min(idleUntil, endsAt.getTime());
}

export function isTouchDue(lastSeenAt: Date | null, now: Date): boolean {
  return lastSeenAt === null || now.getTime() - lastSeenAt.getTime() >= TOUCH_EVERY_MS;
}
