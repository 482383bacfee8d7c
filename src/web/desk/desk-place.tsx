import type { ComponentChildren } from 'preact';
import { LocationProvider, Route, Router, useLocation } from 'preact-iso';
import { laterPage } from '../parts/later-page.js';
import { ServiceContext, useService } from '../parts/service-context.js';
import { Alone, NothingAt, OneMoment, SignInFirst } from '../parts/place-states.js';
import { useSession } from '../parts/use-session.js';
import { CallPage } from './call/call-page.js';
import { ClosedDaysPage } from './closed/closed-days-page.js';
import { ContractCorrectionPage, ContractFormPage } from './contracts/contract-form-page.js';
import { ContractPage } from './contracts/contract-page.js';
import { ContractReviewPage } from './contracts/contract-review-page.js';
import { ContractsPage } from './contracts/contracts-page.js';
import { DayPage } from './days/day-page.js';
import { FeedsPage } from './feeds/feeds-page.js';
import { QuarterPage } from './quarters/quarter-page.js';
import { PosterPage } from './sites/poster-page.js';
import { PrintPage } from './sites/print-page.js';
import { RecordPage } from './sites/record-page.js';
import { SitePlacePage } from './sites/site-place-page.js';
import { SitesPage } from './sites/sites-page.js';
import { MapPage } from './map/map-page.js';
import { NowPage } from './now-page.js';
import { TicketPage } from './ticket/ticket-page.js';
import { BookVisitPage } from './visits/book-visit-page.js';
import { DeskVisitPage } from './visits/visit-page.js';
import { today } from '../parts/local-day.js';
import { VersionsPage } from './sites/versions-page.js';
import { CONTRACT_WORDS, DAY_WORDS, DESK_WORDS } from './words/words.js';

const ofFirm = () => import('./firm/firm-pages.js');
const FirmPage = laterPage(async () => (await ofFirm()).FirmPage);
const PlanningPage = laterPage(async () => (await ofFirm()).PlanningPage);
const PricesPage = laterPage(async () => (await ofFirm()).PricesPage);
const VanPage = laterPage(async () => (await ofFirm()).VanPage);
const WorkTimesPage = laterPage(async () => (await ofFirm()).WorkTimesPage);
const WorkingTimePage = laterPage(async () => (await ofFirm()).WorkingTimePage);

/** Everything below /desk. */
export function DeskPlace() {
  const session = useSession();
  switch (session.state) {
    case 'looking':
      return <OneMoment />;
    case 'out':
      return <SignedOut wasIn={session.wasIn} />;
    case 'failed':
      return (
        <Alone heading={DESK_WORDS.failed}>
          <p role="alert">{session.failure.message}</p>
          <button type="button" class="main" onClick={session.again}>
            {DESK_WORDS.again}
          </button>
        </Alone>
      );
    case 'in':
      return (
        <LocationProvider scope="/desk">
          <ServiceContext.Provider value={session.service}>
            <Desk />
          </ServiceContext.Provider>
        </LocationProvider>
      );
  }
}

function SignedOut({ wasIn }: { wasIn: boolean }) {
  const { sessionOver, sessionOverWhy, signInFirst, signInWhy, signIn } = DESK_WORDS;
  return wasIn ? (
    <SignInFirst heading={sessionOver} why={sessionOverWhy} button={signIn} />
  ) : (
    <SignInFirst heading={signInFirst} why={signInWhy} button={signIn} />
  );
}

function Desk() {
  return (
    <>
      <DeskHead />
      <main id="main">
        <Router>
          <Route path="/desk" component={NowPage} />
          <Route path="/desk/call" component={CallPage} />
          <Route path="/desk/tickets/:number" component={TicketPage} />
          <Route path="/desk/map" component={MapPage} />
          <Route path="/desk/sites" component={SitesPage} />
          <Route path="/desk/sites/:id" component={SitePlacePage} />
          <Route path="/desk/sites/:id/poster" component={PosterPage} />
          <Route path="/desk/sites/:id/print" component={PrintPage} />
          <Route path="/desk/sites/:id/record" component={RecordPage} />
          <Route path="/desk/sites/:id/versions" component={VersionsPage} />
          <Route path="/desk/days/:day" component={DayPage} />
          <Route path="/desk/visits/new" component={BookVisitPage} />
          <Route path="/desk/visits/:id" component={DeskVisitPage} />
          <Route path="/desk/quarters/:day" component={QuarterPage} />
          <Route path="/desk/contracts" component={ContractsPage} />
          <Route path="/desk/contracts/new" component={ContractFormPage} />
          <Route path="/desk/contracts/closed-days" component={ClosedDaysPage} />
          <Route path="/desk/contracts/:id" component={ContractPage} />
          <Route path="/desk/contracts/:id/review" component={ContractReviewPage} />
          <Route path="/desk/contracts/:id/next" component={ContractFormPage} />
          <Route path="/desk/contracts/:id/correction" component={ContractCorrectionPage} />
          <Route path="/desk/calendar-links" component={FeedsPage} />
          <Route path="/desk/firm" component={FirmPage} />
          <Route path="/desk/planning" component={PlanningPage} />
          <Route path="/desk/planning/:id" component={WorkingTimePage} />
          <Route path="/desk/planning/:id/van" component={VanPage} />
          <Route path="/desk/prices" component={PricesPage} />
          <Route path="/desk/work-times" component={WorkTimesPage} />
          <Route default component={NoSuchPage} />
        </Router>
      </main>
    </>
  );
}

function DeskHead() {
  const { name, role } = useService().session.person;
  return (
    <header class="desk-head no-print">
      <nav aria-label={DESK_WORDS.places}>
        <PlaceLink to="/desk">{DESK_WORDS.silentNow}</PlaceLink>
        <PlaceLink to="/desk/call">{DESK_WORDS.takeCall}</PlaceLink>
        <PlaceLink to={`/desk/days/${today()}`} within="/desk/days">
          {DAY_WORDS.title}
        </PlaceLink>
        <PlaceLink to="/desk/sites">{DESK_WORDS.sites}</PlaceLink>
        {role !== 'technician' && (
          <PlaceLink to="/desk/contracts">{CONTRACT_WORDS.title}</PlaceLink>
        )}
        {role === 'owner' && <PlaceLink to="/desk/firm">{DESK_WORDS.firm}</PlaceLink>}
      </nav>
      <a href="/sign-in" target="_self">
        {name}
      </a>
    </header>
  );
}

interface PlaceLinkProps {
  to: string;
  /** What begins so is in the same place. */
  within?: string;
  children: ComponentChildren;
}

function PlaceLink({ to, within = to, children }: PlaceLinkProps) {
  const { path } = useLocation();
  const isHere = to === '/desk' ? path === '/desk' : path.startsWith(within);
  return (
    <a href={to} aria-current={isHere ? 'page' : undefined}>
      {children}
    </a>
  );
}

function NoSuchPage() {
  return <NothingAt home="/desk" back={DESK_WORDS.backToNow} />;
}
