/** What access control is told from outside. */
export class AccessSettings {
  constructor(
    /** Where people reach the service, without a slash at the end; links in mails begin with it. */
    readonly publicUrl: string,
  ) {}

  /** Behind TLS cookies travel over TLS only. */
  get secureCookies(): boolean {
    return this.publicUrl.startsWith('https:');
  }
}
