import type { Role } from './roles.js';

export type CredentialKindOfPrincipal = 'session' | 'token' | 'pass';

/** Who sends a request, as the credential that came with it says. */
export interface Principal {
  firmId: string;
  /** What was shown: a session's cookie, an API token, or the cookie that a site pass was exchanged for. */
  kind: CredentialKindOfPrincipal;
  /** Id of the session or token. */
  credentialId: string;
  role: Role;
  /** Null for a pass, which belongs to nobody. */
  personId: string | null;
  /** Theirs; null for a pass. */
  personName: string | null;
  /** Of a client's person: whose. */
  clientId: string | null;
  /** Of a pass: the site it opens. */
  siteId: string | null;
  passId: string | null;
  /** Of a token: what it is limited to. */
  scopes: readonly string[] | null;
}

declare module 'fastify' {
  interface FastifyRequest {
    /** Set by the guard on every route that is not open. */
    principal?: Principal;
  }
}

/** Whose request it is, on routes that a pass cannot call. */
export function personIdOf({ personId }: Principal): string {
  if (personId === null) throw new Error('A pass belongs to nobody');
  return personId;
}

/** The site that a pass opens, on routes that only a pass can call. */
export function siteIdOf({ siteId }: Principal): string {
  if (siteId === null) throw new Error('Only a pass is of one site');
  return siteId;
}
