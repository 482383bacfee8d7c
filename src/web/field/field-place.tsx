import { LocationProvider, Route, Router } from 'preact-iso';
import { useEffect, useState } from 'preact/hooks';
import { useFocusKept } from '../parts/keep-focus.js';
import { Alone, NothingAt, OneMoment, SignInFirst } from '../parts/place-states.js';
import { signInAddress } from '../parts/use-session.js';
import { SERVICE_CLOCK } from '../parts/service-clock.js';
import { since } from '../parts/time-words.js';
import type { SignedIn } from '../parts/wire.js';
import { readInWords } from './ages.js';
import { type FieldDatabase, openFieldDatabase } from './field-database.js';
import { FIELD_WORDS } from './field-words.js';
import { FoundAt } from './found-at.js';
import { JobSheetPage } from './job-sheet-page.js';
import { JobsPage } from './jobs-page.js';
import { stillHere } from './outbox.js';
import { FieldTicketPage } from './ticket-page.js';
import { FieldContext, useField, useFieldOf } from './use-field.js';
import { useFieldSession } from './use-field-session.js';
import { VisitPage } from './visit-page.js';
import { WaitingPage } from './waiting-page.js';

/** Everything below /field. */
export function FieldPlace() {
  const [database, setDatabase] = useState<FieldDatabase | null>();
  useEffect(() => {
    openFieldDatabase().then(setDatabase, () => setDatabase(null));
    // What waits is not to be thrown out where the disk gets full.
    void navigator.storage?.persist?.();
  }, []);
  if (database === undefined) return <OneMoment />;
  if (database === null)
    return (
      <Alone heading={FIELD_WORDS.noDisk}>
        <p>{FIELD_WORDS.noDiskWhy}</p>
      </Alone>
    );
  return <Known database={database} />;
}

function Known({ database }: { database: FieldDatabase }) {
  const session = useFieldSession(database);
  switch (session.state) {
    case 'looking':
      return <OneMoment />;
    case 'nobody':
      return session.isReached ? (
        <SignInFirst heading={FIELD_WORDS.signInFirst} button={FIELD_WORDS.signIn} />
      ) : (
        <Alone heading={FIELD_WORDS.notReached}>
          <p>{FIELD_WORDS.notReachedFirst}</p>
        </Alone>
      );
    case 'known':
      if (session.person.role === 'client')
        return (
          <Alone heading={FIELD_WORDS.notForClients}>
            <p>{FIELD_WORDS.notForClientsWhy}</p>
          </Alone>
        );
      return <Place key={session.person.id} database={database} person={session.person} />;
  }
}

function Place({ database, person }: { database: FieldDatabase; person: SignedIn['person'] }) {
  const field = useFieldOf(database, person);
  // Nothing is said of what waits, and nothing planned without it, before it is known.
  if (!field.keeper.hasLooked) return <OneMoment />;
  return (
    <LocationProvider scope="/field">
      <FieldContext.Provider value={field}>
        <FieldHead />
        <Pages />
      </FieldContext.Provider>
    </LocationProvider>
  );
}

function Pages() {
  const main = useFocusKept<HTMLElement>();
  return (
    <main id="main" ref={main}>
      <Router>
        <Route path="/field" component={JobsPage} />
        <Route path="/field/tickets/:number" component={FieldTicketPage} />
        <Route path="/field/tickets/:number/:what" component={FieldTicketPage} />
        <Route path="/field/visits/:id" component={VisitPage} />
        <Route path="/field/visits/:id/sheet" component={JobSheetPage} />
        <Route path="/field/at/:siteId/:trunk/:node" component={FoundAt} />
        <Route path="/field/waiting" component={WaitingPage} />
        <Route default component={NothingHere} />
      </Router>
    </main>
  );
}

/** How old what is shown is, and how much waits: on every page. */
function FieldHead() {
  const { entries, reach, work, person } = useField();
  const here = stillHere(entries);
  const refused = here.filter(({ state }) => state === 'refused').length;
  const others = here.filter(({ personId }) => personId !== person.id);
  return (
    <header class="field-head">
      <nav aria-label={FIELD_WORDS.places}>
        <a href="/field">{FIELD_WORDS.jobs}</a>
        <a href="/field/waiting">{FIELD_WORDS.waiting(here.length)}</a>
      </nav>
      <p class="soft">{work === undefined ? '' : readInWords(work.askedAt)}</p>
      <WrongClock />
      {reach === 'later' && <p role="status">{FIELD_WORDS.noSignal}</p>}
      {reach === 'signed-out' && (
        <p class="notice" role="alert">
          {FIELD_WORDS.sessionOver}{' '}
          <a href={signInAddress()} target="_self">
            {FIELD_WORDS.signIn}
          </a>
        </p>
      )}
      {refused > 0 && (
        <p class="notice" role="alert">
          <a href="/field/waiting">{FIELD_WORDS.refused(refused)}</a>
        </p>
      )}
      {others.length > 0 && (
        <p class="notice">{FIELD_WORDS.ofOthers(others.length, others[0]?.personName ?? '')}</p>
      )}
    </header>
  );
}

/** What is entered is right all the same; what else is on the phone goes by its clock. */
function WrongClock() {
  const minutes = Math.round(SERVICE_CLOCK.aheadMs / 60_000);
  if (minutes === 0) return null;
  const ago = since(new Date(0).toISOString(), new Date(Math.abs(minutes) * 60_000));
  return (
    <p class="notice" role="status">
      {minutes > 0 ? FIELD_WORDS.clockFast(ago) : FIELD_WORDS.clockSlow(ago)}
    </p>
  );
}

function NothingHere() {
  return <NothingAt home="/field" back={FIELD_WORDS.jobs} />;
}
