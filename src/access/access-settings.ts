/** How often something may be done in a minute. */
export interface Limits {
  /** Signing in, links from mails, exchanging a pass: by address. */
  openPerMinute: number;
  /** Wrong cookies and tokens: by address. */
  wrongCredentialsPerMinute: number;
  /** All that one sitting with a site's pass asks for. */
  passPerMinute: number;
  /** All that one session or token asks for. */
  accountPerMinute: number;
}

export const DEFAULT_LIMITS: Limits = {
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
    readonly limits: Limits,
    /** 32 bytes, the same for every process: what is sealed with it opens with no other. */
    readonly sealKey: Buffer,
  ) {}

  /** Without a slash at the end; links in mails begin with it. */
  get publicUrl(): string {
    return typeof this.reachedAt === 'string' ? this.reachedAt : this.reachedAt();
  }

  /** Behind TLS cookies travel over TLS only. */
  get secureCookies(): boolean {
    // What listens here by itself does so without TLS.
    return typeof this.reachedAt === 'string' && this.reachedAt.startsWith('https:');
  }
}
