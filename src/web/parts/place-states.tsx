import type { ComponentChildren } from 'preact';
import { useEffect } from 'preact/hooks';
import { PAGE_WORDS } from './language.js';
import { signInAddress } from './use-session.js';

/** A place of which nothing can be shown yet. */
export function OneMoment() {
  return (
    <main>
      <p role="status">{PAGE_WORDS.oneMoment}</p>
    </main>
  );
}

/** One thing that is said in place of all the rest, and what to do about it. */
export function Alone({ heading, children }: { heading: string; children: ComponentChildren }) {
  useEffect(() => {
    document.title = heading;
  }, [heading]);
  return (
    <main class="narrow">
      <h1>{heading}</h1>
      {children}
    </main>
  );
}

interface SignInFirstProps {
  heading: string;
  why?: string;
  button: string;
}

/** Nobody is signed in: whoever does comes back to what was to be shown. */
export function SignInFirst({ heading, why, button }: SignInFirstProps) {
  return (
    <Alone heading={heading}>
      {why !== undefined && <p>{why}</p>}
      <p>
        <a class="button main" href={signInAddress()} target="_self">
          {button}
        </a>
      </p>
    </Alone>
  );
}

/** An address of the place that leads nowhere. */
export function NothingAt({ home, back }: { home: string; back: string }) {
  useEffect(() => {
    document.title = PAGE_WORDS.nothingHere;
  }, []);
  return (
    <section class="narrow">
      <h1>{PAGE_WORDS.nothingHere}</h1>
      <p>
        <a href={home}>{back}</a>
      </p>
    </section>
  );
}
