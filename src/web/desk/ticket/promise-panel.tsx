import { useService } from '../../parts/service-context.js';
import { atSite } from '../../parts/time-words.js';
import type { ReadTicketClock } from '../../parts/wire.js';
import { ClockLines, ClockPauses } from '../contracts/clock-lines.js';
import { clockInWords, TROUBLE_WORDS } from '../contracts/contract-sentences.js';
import { asHeadline } from '../desk-words.js';
import { dueInWords } from './due-in-words.js';
import { CauseForm, ClassForm, PauseForm, ResumeForm } from './promise-forms.js';
import type { TicketViewProps } from './ticket-view.js';
import { ToldBeside } from './told-beside.js';
import { CONTRACT_WORDS, EVIDENCE_WORDS, PROMISE_WORDS } from '../words/words.js';

/** What was promised for the ticket and how it stands; who may say so stops the clock, and says what it goes by. */
export function PromisePanel(props: TicketViewProps) {
  const { clock } = props;
  const isOffice = useService().session.person.role !== 'technician';
  const { none, contractId, contractTitle, promises } = clock;
  return (
    <section>
      <h2>{PROMISE_WORDS.heading}</h2>
      {none !== null && <p>{PROMISE_WORDS.none[none]}</p>}
      {contractTitle !== null && (
        <p>
          {isOffice ? <a href={`/desk/contracts/${contractId}`}>{contractTitle}</a> : contractTitle}
        </p>
      )}
      {none !== 'merged' && contractId !== null && <ClockBasis clock={clock} />}
      {promises.map((promise) => (
        <OnePromise key={promise.promise} promise={promise} zone={clock.zone} />
      ))}
      <PromiseForms {...props} />
    </section>
  );
}

/** From when it runs, by what trouble, and whether it stands still. */
function ClockBasis({ clock }: { clock: ReadTicketClock }) {
  const { reportedAt, recordedAt, zone, troubleClass, computedClass, overrideReason } = clock;
  return (
    <>
      {recordedAt !== reportedAt && (
        <p>{PROMISE_WORDS.recorded(atSite(reportedAt, zone), atSite(recordedAt, zone))}</p>
      )}
      <p>{asHeadline(TROUBLE_WORDS[troubleClass])}.</p>
      {overrideReason !== null && (
        <p class="soft">{PROMISE_WORDS.saidSo(overrideReason, TROUBLE_WORDS[computedClass])}</p>
      )}
      <ClockPauses clock={clock} />
      <p class="hint">{EVIDENCE_WORDS.whenClock(zone)}</p>
    </>
  );
}

type Promised = ReadTicketClock['promises'][number];

function OnePromise({ promise, zone }: { promise: Promised; zone: string }) {
  const { state, cause, lines, words } = promise;
  return (
    <div>
      <h3>{CONTRACT_WORDS.promises[promise.promise]}</h3>
      <p>
        <strong>{dueInWords(promise, zone)}</strong>{' '}
        <span class={state === 'breached' ? 'fresh' : undefined}>{clockInWords(promise)}</span>
      </p>
      {cause !== null && <p>{CONTRACT_WORDS.cause(cause)}</p>}
      <p class="soft">{asHeadline(words)}</p>
      <ClockLines lines={lines} />
    </div>
  );
}

function openPause({ pauses }: ReadTicketClock) {
  return pauses.find(({ until }) => until === null);
}

/** What can be said of it as it stands, by whoever is signed in. */
function PromiseForms(props: TicketViewProps) {
  const { clock, ticket } = props;
  const isOffice = useService().session.person.role !== 'technician';
  const { none, contractId, promises } = clock;
  if (none === 'merged' || contractId === null) return null;
  const isOpen = ticket.state !== 'closed';
  const isStopped = openPause(clock) !== undefined;
  const isRunning = promises.some(({ doneAt }) => doneAt === null);
  const isBroken = promises.some(({ state }) => state === 'breached');
  return (
    <>
      <ToldBeside>
        {(onEntered) =>
          isOpen &&
          (isStopped ? (
            <ResumeForm {...props} onEntered={onEntered} />
          ) : (
            isRunning && <PauseForm {...props} onEntered={onEntered} />
          ))
        }
      </ToldBeside>
      {isOffice && (
        <ToldBeside>{(onEntered) => <ClassForm {...props} onEntered={onEntered} />}</ToldBeside>
      )}
      {isOffice && (
        <ToldBeside>
          {(onEntered) => isBroken && <CauseForm {...props} onEntered={onEntered} />}
        </ToldBeside>
      )}
    </>
  );
}
