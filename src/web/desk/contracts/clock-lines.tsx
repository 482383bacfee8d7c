import type { ComponentChildren } from 'preact';
import { atSite } from '../../parts/time-words.js';
import type { ReadTicketClock } from '../../parts/wire.js';
import { PAUSED_FOR } from './contract-sentences.js';
import { CONTRACT_WORDS, PROMISE_WORDS } from '../words/words.js';

/** Each time that the clock stood still, why, and what shows it; by the clock of the site. */
export function ClockPauses({ clock: { pauses, zone } }: { clock: ReadTicketClock }) {
  return (
    <>
      {pauses.map(({ from, until, reason, evidence, saidBy }) => (
        <p key={from} class={until === null ? 'notice' : 'soft'}>
          {until === null
            ? PROMISE_WORDS.stopped(atSite(from, zone), PAUSED_FOR[reason], shown(evidence, saidBy))
            : PROMISE_WORDS.wasStopped(
                atSite(from, zone),
                atSite(until, zone),
                PAUSED_FOR[reason],
                shown(evidence, saidBy),
              )}
        </p>
      ))}
    </>
  );
}

/** What shows it, and whose word that is. */
function shown(evidence: string, saidBy: string | null): string {
  return saidBy === null ? evidence : PROMISE_WORDS.shownBy(evidence, saidBy);
}

interface ClockLinesProps {
  lines: ReadTicketClock['promises'][number]['lines'];
  children?: ComponentChildren;
}

/** How a clock was reckoned, to be opened. */
export function ClockLines({ lines, children }: ClockLinesProps) {
  return (
    <details>
      <summary class="soft">{CONTRACT_WORDS.lines}</summary>
      {children}
      <ol class="plain">
        {lines.map((line, index) => (
          <li key={index}>{line.words}</li>
        ))}
      </ol>
    </details>
  );
}
