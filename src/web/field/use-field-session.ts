import { useEffect, useState } from 'preact/hooks';
import { ask } from '../parts/ask.js';
import { Failure } from '../parts/failure.js';
import type { SignedIn } from '../parts/wire.js';
import type { FieldDatabase, KeptRead } from './field-database.js';

type Person = SignedIn['person'];

export type FieldSession =
  | { state: 'looking' }
  | { state: 'nobody'; isReached: boolean }
  /** The service says so; where it was not reached, it is whoever was in here last. */
  | { state: 'known'; person: Person };

const KEPT = 'person';

/** Who works here: asked of the service where it is reached, else whoever was signed in here last. */
export function useFieldSession(database: FieldDatabase): FieldSession {
  const [session, setSession] = useState<FieldSession>({ state: 'looking' });
  useEffect(() => {
    const look = async () => {
      const kept = (await database.get('reads', KEPT)) as KeptRead<Person> | undefined;
      // What is kept is shown at once: with a bad signal the answer takes its time.
      if (kept !== undefined) setSession({ state: 'known', person: kept.value });
      try {
        const { person } = await ask<SignedIn>('GET', '/session');
        const askedAt = new Date().toISOString();
        await database.put('reads', { value: person, askedAt }, KEPT);
        // The same person stays the same: all that is shown stands on it.
        const same = kept?.value.id === person.id ? kept.value : person;
        setSession({ state: 'known', person: same });
      } catch (error) {
        if (!(error instanceof Failure)) throw error;
        const isReached = error.status === 401;
        if (kept === undefined) setSession({ state: 'nobody', isReached });
      }
    };
    void look();
  }, [database]);
  return session;
}
