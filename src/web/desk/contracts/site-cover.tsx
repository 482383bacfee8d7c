import type { ReadSiteCover } from '../../parts/wire.js';
import { longDay } from '../../parts/time-words.js';
import { lastDay } from './contract-sentences.js';
import { CONTRACT_WORDS } from '../words/words.js';

interface SiteCoverProps {
  cover: ReadSiteCover;
  /** Whether the contracts' own pages are for whoever looks. */
  isOffice: boolean;
}

/** Which contracts cover a site, and the days that none or several do. */
export function SiteCover({ cover, isOffice }: SiteCoverProps) {
  const words = CONTRACT_WORDS;
  const { periods, inForce, gaps, overlaps } = cover;
  return (
    <section>
      <h2>{words.cover}</h2>
      {periods.length === 0 && <p>{words.noCover}</p>}
      <ul class="plain">
        {periods.map(({ contractId, title, from, until }) => (
          <li key={contractId}>
            {isOffice ? <a href={`/desk/contracts/${contractId}`}>{title}</a> : title},{' '}
            {longDay(from)} – {lastDay(until)}
            {contractId === inForce && <strong> {words.coverNow}</strong>}
          </li>
        ))}
      </ul>
      {gaps.map(({ from, until }) => (
        <p key={from} class="notice">
          {words.gap(longDay(from), lastDay(until))}
        </p>
      ))}
      {overlaps.map(({ from, until }) => (
        <p key={from} class="notice">
          {words.overlap(longDay(from), lastDay(until))}
        </p>
      ))}
    </section>
  );
}
