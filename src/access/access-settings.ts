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

/** Who takes mails, as an `smtp:` or `smtps:` URL, and whom they are from. */
export interface MailServer {
  smtpUrl: string;
  from: string;
}

/** What access control is told from outside. */
export class AccessSettings {
  constructor(
    /** Where people reach the service, without a slash at the end; links in mails begin with it. */
    readonly publicUrl: string,
    readonly limits: Limits,
    /** Left out: mails stay in the outbox. */
    readonly mail?: MailServer,
  ) {}

  /** Behind TLS cookies travel over TLS only. */
  get secureCookies(): boolean {
    return this.publicUrl.startsWith('https:');
  }
}
