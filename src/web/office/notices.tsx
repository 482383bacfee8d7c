import type { PassSite } from '../parts/wire.js';
import { OFFICE_WORDS } from './own-words.js';

export function EmergencyNotice() {
  const { label, heading, text } = OFFICE_WORDS.emergency;
  return (
    <section class="notice" aria-label={label}>
      <p>
        <strong>{heading}</strong> {text}
      </p>
    </section>
  );
}

export function LookOnlyNotice() {
  return <p class="caution">{OFFICE_WORDS.check.lookOnly}</p>;
}

/** When somebody comes next, and what that depends on; or that somebody is there. */
export function VisitLine({ next }: { next: PassSite['nextVisit'] }) {
  if (next?.isUnderWay === true) return <p>{OFFICE_WORDS.atWork}</p>;
  return (
    <p>
      {OFFICE_WORDS.nextVisit(next)}
      {next !== null && <span class="soft"> {OFFICE_WORDS.mayChange}</span>}
    </p>
  );
}
