import { useEffect, useState } from 'preact/hooks';
import { ask } from './ask.js';
import { Failure } from './failure.js';
import { Service } from './service.js';
import type { SignedIn } from './wire.js';

export type SessionState =
  | { state: 'looking' }
  | { state: 'in'; service: Service }
  | { state: 'out'; wasIn: boolean }
  | { state: 'failed'; failure: Failure; again: () => void };

/** Whether somebody is signed in here, and how the page asks on their behalf. */
export function useSession(): SessionState {
  const [session, setSession] = useState<SessionState>({ state: 'looking' });
  const look = () => {
    ask<SignedIn>('GET', '/session').then(
      (signedIn) => {
        const service = new Service(signedIn, () => setSession({ state: 'out', wasIn: true }));
        setSession({ state: 'in', service });
      },
      (error: unknown) => {
        if (!(error instanceof Failure)) throw error;
        if (error.status === 401) setSession({ state: 'out', wasIn: false });
        else setSession({ state: 'failed', failure: error, again: look });
      },
    );
  };
  useEffect(look, []);
  return session;
}

/** Where to sign in so as to come back to what is shown now. */
export function signInAddress(): string {
  return `/sign-in?to=${encodeURIComponent(location.pathname + location.search)}`;
}
