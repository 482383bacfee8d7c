/** How often something may be done in a window of time. */
export interface RateLimit {
  /** What is limited, as answers name it. */
  name: string;
  limit: number;
  windowSeconds: number;
}

/** A limit with how much of it is used. */
export interface Counted extends RateLimit {
  remaining: number;
  resetSeconds: number;
}

/** When the window of an instant begins: windows stand side by side from the epoch on. */
export function windowStart({ windowSeconds }: RateLimit, now: Date): number {
  const windowMs = windowSeconds * 1000;
  return Math.floor(now.getTime() / windowMs) * windowMs;
}

/** `place` is which one in its window this is, from 1. */
export function countedAs(rateLimit: RateLimit, place: number, now: Date): Counted {
  const end = windowStart(rateLimit, now) + rateLimit.windowSeconds * 1000;
  return {
    ...rateLimit,
    remaining: Math.max(0, rateLimit.limit - place),
    resetSeconds: Math.max(1, Math.ceil((end - now.getTime()) / 1000)),
  };
}

/** The fields of draft-ietf-httpapi-ratelimit-headers, versions 10 and 11 (docs/decisions/0065). */
export function limitHeaders({ name, limit, windowSeconds, remaining, resetSeconds }: Counted) {
  return {
    'ratelimit-policy': `"${name}";q=${limit};w=${windowSeconds}`,
    ratelimit: `"${name}";r=${remaining};t=${resetSeconds}`,
  };
}
