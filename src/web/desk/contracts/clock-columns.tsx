import type { SheetColumn } from '../../parts/sheet-table.js';
import { atSite } from '../../parts/time-words.js';
import type { ReadTicketClock } from '../../parts/wire.js';
import { dueInWords } from '../ticket/due-in-words.js';
import { ClockLines, ClockPauses } from './clock-lines.js';
import { clockInWords, TROUBLE_WORDS } from './contract-sentences.js';
import { CONTRACT_WORDS, PROMISE_WORDS } from '../words/words.js';

interface Clocked {
  clock: ReadTicketClock;
}

type Promised = ReadTicketClock['promises'][number];

/** When it was reported, how far it went, and both promises: on the page in words, in the file with what they are reckoned from. */
export function clockColumns<Row extends Clocked>(
  names: Readonly<Record<Promised['promise'], string>>,
): SheetColumn<Row>[] {
  return [
    {
      head: CONTRACT_WORDS.reported,
      value: ({ clock }) => clock.reportedAt,
      shown: ({ clock }) => <Reported clock={clock} />,
    },
    {
      head: CONTRACT_WORDS.trouble,
      value: ({ clock }) => TROUBLE_WORDS[clock.troubleClass],
      shown: ({ clock }) => <Trouble clock={clock} />,
    },
    ...promiseColumns<Row>('response', names.response),
    ...promiseColumns<Row>('restore', names.restore),
  ];
}

function promiseColumns<Row extends Clocked>(
  name: Promised['promise'],
  head: string,
): SheetColumn<Row>[] {
  const { inSheet } = CONTRACT_WORDS;
  const find = ({ clock }: Row) => clock.promises.find(({ promise }) => promise === name);
  const inFile = (what: string, of: (one: Promised) => string | number | null) => ({
    head: `${head}: ${what}`,
    value: (row: Row) => {
      const one = find(row);
      return one === undefined ? null : of(one);
    },
    shown: null,
  });
  return [
    {
      head,
      value: (row) => {
        const one = find(row);
        return one === undefined ? '' : clockInWords(one);
      },
      shown: (row) => {
        const one = find(row);
        return one && <PromiseLines promise={one} zone={row.clock.zone} />;
      },
    },
    inFile(inSheet.due, ({ dueAt }) => dueAt),
    inFile(inSheet.done, ({ doneAt }) => doneAt),
    inFile(inSheet.minutesPromised, ({ promisedMinutes }) => promisedMinutes),
    inFile(inSheet.minutesTaken, ({ minutesTaken }) => minutesTaken),
    inFile(inSheet.cause, ({ cause }) => cause),
  ];
}

/** By the clock of the site; both instants, where it was written down later than it was reported. */
function Reported({ clock: { reportedAt, recordedAt, zone } }: Clocked) {
  const [reported, recorded] = [atSite(reportedAt, zone), atSite(recordedAt, zone)];
  return (
    <>
      {reported} <span class="soft">({zone})</span>
      {recordedAt !== reportedAt && (
        <p class="soft">{PROMISE_WORDS.recorded(reported, recorded)}</p>
      )}
    </>
  );
}

/** Somebody’s word for it stands with its reason. */
function Trouble({ clock }: Clocked) {
  const { troubleClass, computedClass, overrideReason } = clock;
  return (
    <>
      {TROUBLE_WORDS[troubleClass]}
      {overrideReason !== null && (
        <p class="soft">{PROMISE_WORDS.saidSo(overrideReason, TROUBLE_WORDS[computedClass])}</p>
      )}
      <ClockPauses clock={clock} />
    </>
  );
}

/** A clock as it stands, due when and done when, with how it was reckoned to be opened. */
function PromiseLines({ promise, zone }: { promise: Promised; zone: string }) {
  const { state, cause, lines, words } = promise;
  return (
    <>
      <span class={state === 'breached' ? 'fresh' : undefined}>{clockInWords(promise)}</span>
      <p>{dueInWords(promise, zone).replace(/;$/, '')}</p>
      {cause !== null && <p>{CONTRACT_WORDS.cause(cause)}</p>}
      <ClockLines lines={lines}>
        <p>{words}</p>
      </ClockLines>
    </>
  );
}
