import { useEffect, useState } from 'preact/hooks';
import { FailureLine } from '../../parts/failure-line.js';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import { useSending } from '../../parts/use-sending.js';
import type { ReadClosedDays } from '../../parts/wire.js';
import { KeepersOnly } from '../contracts/keepers-only.js';
import { useIsBegun } from '../use-draft.js';
import { countDays } from './closed-days-draft.js';
import { ClosedDaysForm, closedDaysPurpose } from './closed-days-form.js';
import { ClosedTimesTable } from './closed-times-table.js';
import { CLOSED_DAYS_WORDS } from '../words/words.js';

/** Calendars of days that do not count, or on which nobody is to come. */
export function ClosedDaysPage() {
  return (
    <KeepersOnly title={CLOSED_DAYS_WORDS.title}>
      <ClosedDays />
    </KeepersOnly>
  );
}

function ClosedDays() {
  const service = useService();
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const words = CLOSED_DAYS_WORDS;
  const isBegun = useIsBegun(closedDaysPurpose());
  const [done, setDone] = useState('');
  useEffect(() => {
    document.title = words.title;
  }, [words]);
  const read = useRead('closed days', async () => {
    const { items } = await service.list<ReadClosedDays>('/closed-calendars');
    return items;
  });
  const say = (said: string) => {
    setDone(said);
    read.again();
  };
  return (
    <article>
      <h1 tabIndex={-1} ref={heading}>
        {words.title}
      </h1>
      <p class="hint">{words.hint}</p>
      <p role="status">{done}</p>
      <Loaded read={read}>
        {(calendars) =>
          calendars.length === 0 ? (
            <p class="empty">{words.none}</p>
          ) : (
            <>
              {calendars.map((one) => (
                <OneCalendar key={one.id} calendar={one} onDone={say} onStale={read.again} />
              ))}
            </>
          )
        }
      </Loaded>
      <details open={isBegun} class="narrow">
        <summary>{words.make}</summary>
        <ClosedDaysForm onKept={(name) => say(words.kept(name))} onStale={read.again} />
      </details>
    </article>
  );
}

interface OneCalendarProps {
  calendar: ReadClosedDays;
  /** Told what was done. */
  onDone: (said: string) => void;
  onStale: () => void;
}

function OneCalendar({ calendar, onDone, onStale }: OneCalendarProps) {
  const { name, times } = calendar;
  const words = CLOSED_DAYS_WORDS;
  const isBegun = useIsBegun(closedDaysPurpose(calendar));
  return (
    <section>
      <h2>{name}</h2>
      <details>
        <summary>
          {times.length === 0 ? words.closesNothing : words.closes(times.length, countDays(times))}
          <span class="unseen"> {name}</span>
        </summary>
        <ClosedTimesTable times={times} />
      </details>
      <details open={isBegun} class="narrow">
        <summary>
          {words.change}
          <span class="unseen"> {name}</span>
        </summary>
        <ClosedDaysForm
          calendar={calendar}
          onKept={(given) => onDone(words.kept(given))}
          onStale={onStale}
        />
      </details>
      <RemoveCalendar calendar={calendar} onDone={onDone} />
    </section>
  );
}

function RemoveCalendar({ calendar, onDone }: Omit<OneCalendarProps, 'onStale'>) {
  const service = useService();
  const { isSending, failure, send } = useSending();
  const { id, name, version } = calendar;
  const words = CLOSED_DAYS_WORDS;
  const remove = () =>
    send(async () => {
      await service.send('DELETE', `/closed-calendars/${id}`, { ifMatch: version });
      onDone(words.removed(name));
    });
  return (
    <details>
      <summary>
        {words.remove}
        <span class="unseen"> {name}</span>
      </summary>
      <FailureLine failure={failure} />
      <button type="button" aria-disabled={isSending} onClick={remove}>
        {words.removeNow}
        <span class="unseen"> {name}</span>
      </button>
    </details>
  );
}
