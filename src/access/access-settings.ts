import type { RateLimit } from '../rate-limits/rate-limit.js';

/** How often something may be done in a minute. */
export interface RequestLimits {
  /** Signing in, links from mails, exchanging a pass: by network, or by a device that is known. */
  openPerMinute: number;
  /** Wrong cookies and tokens: by network. */
  wrongCredentialsPerMinute: number;
  /** All that one sitting with a site's pass asks for. */
  passPerMinute: number;
  /** All that one session or token asks for. */
  accountPerMinute: number;
}

/** The limits of a minute as they are counted and told. */
export function rateLimitsOf(limits: RequestLimits) {
  const aMinute = (name: string, limit: number): RateLimit => ({ name, limit, windowSeconds: 60 });
  return {
    open: aMinute('open', limits.openPerMinute),
    wrongCredentials: aMinute('wrong-credentials', limits.wrongCredentialsPerMinute),
    pass: aMinute('pass', limits.passPerMinute),
    account: aMinute('account', limits.accountPerMinute),
  };
}

export const DEFAULT_LIMITS: RequestLimits = {
  openPerMinute: 30,
  wrongCredentialsPerMinute: 60,
  passPerMinute: 120,
  accountPerMinute: 6000,
};

/** What access control is told from outside. */
export class AccessSettings {
  constructor(
    /** Where people reach the service; a function, where that is known once it listens. */
    private readonly reachedAt: string | (() => string),
    readonly limits: RequestLimits,
    /** 32 bytes, the same for every process: what is sealed with it opens with no other. */
    readonly sealKey: Buffer,
    /** What is wrong with links that begin with where people reach the service; null: nothing. */
    readonly linkWarning: string | null = null,
    /** Whether what is sent may go to the machine’s own network. */
    readonly reachesPrivate = false,
  ) {}

  /** Without a slash at the end; links in mails begin with it. */
  get publicUrl(): string {
    return typeof this.reachedAt === 'string' ? this.reachedAt : this.reachedAt();
  }

  /** The same, where somebody has set it; else null. */
  get setUrl(): string | null {
    return typeof this.reachedAt === 'string' ? this.reachedAt : null;
  }

  /** Behind TLS cookies travel over TLS only. */
  get secureCookies(): boolean {
    // What listens here by itself does so without TLS.
    return typeof this.reachedAt === 'string' && this.reachedAt.startsWith('https:');
  }
}
