import type { CredentialKindOfPrincipal, Principal } from '../people/principal.js';

/** Who acts: by which credential, or somebody who is just proving who they are. */
export type ActorKind = CredentialKindOfPrincipal | 'signing-in';

export type RequestOutcome = 'done' | 'refused';

/** What of a request belongs in the record. */
export interface AuditedRequest {
  action: string;
  target: Record<string, string>;
  address: string;
  requestId: string;
}

/** The person or the pass that a principal stands for. */
export function actorOf({ kind, personId, passId, role }: Principal) {
  return { actorKind: kind, actorId: personId ?? passId, role };
}

/** The parameters of a path, and the id of what the request made: never anything else of a body. */
export function targetOf(parameters: unknown, answer: unknown): Record<string, string> {
  const target: Record<string, string> = {};
  for (const [name, value] of Object.entries(parameters ?? {})) {
    if (typeof value === 'string') target[name] = value;
  }
  if (typeof answer !== 'object' || answer === null) return target;
  for (const name of ['id', 'personId'] as const) {
    const made: unknown = (answer as Record<string, unknown>)[name];
    if (typeof made === 'string') target[name] ??= made;
  }
  return target;
}
