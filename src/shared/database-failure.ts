/** That the database could not do it now, but may soon: how many seconds to wait, and what it said. */
export interface PassingFailure {
  retryAfterSeconds: number;
  reason: string;
}

const WHEN_AWAY_SECONDS = 5;
const WHEN_BUSY_SECONDS = 1;

/** Of the operating system: nobody listens there, or nobody any more. */
const NOT_REACHED: readonly string[] = [
  'EAI_AGAIN',
  'ECONNREFUSED',
  'ECONNRESET',
  'EHOSTUNREACH',
  'ENETUNREACH',
  'ENOTFOUND',
  'EPIPE',
  'ETIMEDOUT',
];

/**
 * PostgreSQL's SQLSTATE (its manual, appendix A): connection exceptions, that it does not know the app's role or
 * database (somebody is at it), insufficient resources, an idle transaction that was ended, and its own start or end.
 */
const AWAY = /^(?:08...|28...|3D000|53...|25P0[34]|57P0[1-5])$/;

/** Serialisation failure, deadlock, a statement that took too long, a lock that was not to be had. */
const BUSY = /^(?:40001|40P01|57014|55P03)$/;

/** What the driver and the ORM say themselves has no code. */
const SAID_WHEN_AWAY =
  /^(?:Connection terminated|timeout exceeded when trying to connect|Query read timeout|Client (?:has encountered a connection error|was closed)|Query runner already released|Driver not Connected)/i;

/** Undefined where the failure is one that waiting does not mend. */
export function readPassingFailure(error: unknown): PassingFailure | undefined {
  const { code, reason } = describe(error);
  if (BUSY.test(code)) return { retryAfterSeconds: WHEN_BUSY_SECONDS, reason };
  return isConnectionLost(error) ? { retryAfterSeconds: WHEN_AWAY_SECONDS, reason } : undefined;
}

/** Whether the connection that it happened on is of no use any more, or could not be had. */
export function isConnectionLost(error: unknown): boolean {
  const { code, reason } = describe(error);
  return NOT_REACHED.includes(code) || AWAY.test(code) || SAID_WHEN_AWAY.test(reason);
}

function describe(error: unknown): { code: string; reason: string } {
  const { driverError } = (error ?? {}) as { driverError?: unknown };
  const { code, message } = (driverError ?? error ?? {}) as { code?: unknown; message?: unknown };
  const text = typeof code === 'string' ? code : '';
  return { code: text, reason: typeof message === 'string' && message !== '' ? message : text };
}

/** SQLSTATE of what the database refused; undefined where the failure is none of its. */
export function sqlStateOf(error: unknown): string | undefined {
  const code = (error as { driverError?: { code?: unknown } } | null)?.driverError?.code;
  return typeof code === 'string' ? code : undefined;
}
