import { useEffect } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { Failure } from '../../parts/failure.js';
import type { Service } from '../../parts/service.js';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { shortDay } from '../../parts/time-words.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import type { ReadDayPlan, ReadSite, ReadVisit, ReadWorkingTime } from '../../parts/wire.js';
import { dayBeside, isDayText } from './day-lanes.js';
import { DayPlanView } from './day-plan-view.js';
import { MakePlan } from './make-plan.js';
import { mondayFrom } from '../quarters/quarter-weeks.js';
import { useLive } from '../use-live.js';
import {
  BOOK_VISIT_WORDS,
  DAY_WORDS,
  FEED_WORDS,
  PLANNING_WORDS,
  QUARTER_WORDS,
  WORK_TIMES_WORDS,
} from '../words/words.js';

/** Everything that the page of a day shows. */
export interface DayRead {
  day: string;
  /** Undefined: nobody has planned the day. */
  plan: ReadDayPlan | undefined;
  technicians: ReadWorkingTime[];
  visits: ReadVisit[];
  sites: ReadSite[];
}

/** Who goes where on a day, in which order, and what could not be placed. */
export function DayPage({ day = '' }: { day?: string }) {
  const service = useService();
  const read = useRead(`day ${day}`, () => readDay(service, day));
  useLive(read.again);
  useEffect(() => {
    document.title = isDayText(day) ? shortDay(day) : DAY_WORDS.title;
  }, [day]);
  return (
    <Loaded read={read}>{(all) => <DayView key={day} {...all} onChanged={read.again} />}</Loaded>
  );
}

async function readDay(service: Service, day: string): Promise<DayRead> {
  if (!isDayText(day)) throw new Failure(404, day);
  const isOffice = service.session.person.role !== 'technician';
  const [plan, times, visits, sites] = await Promise.all([
    service.find<ReadDayPlan>(`/plans/days/${day}`),
    isOffice ? service.read<{ items: ReadWorkingTime[] }>('/working-times') : { items: [] },
    service.list<ReadVisit>(`/visits?on=${day}`),
    service.list<ReadSite>('/sites'),
  ]);
  return { day, plan, technicians: times.items, visits: visits.items, sites: sites.items };
}

function DayView(props: DayRead & { onChanged: () => void }) {
  const { day, plan } = props;
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  return (
    <article>
      <div class="line-up">
        <h1 tabIndex={-1} ref={heading}>
          {shortDay(day)}
        </h1>
        <DayBeside day={day} />
        <DayMore day={day} />
      </div>
      {plan === undefined ? <NotPlanned {...props} /> : <DayPlanView {...props} plan={plan} />}
    </article>
  );
}

function DayBeside({ day }: { day: string }) {
  const { route } = useLocation();
  const [before, after] = [dayBeside(day, -1), dayBeside(day, 1)];
  return (
    <p class="line-up no-print">
      <a href={`/desk/days/${before}`}>
        <span class="unseen">{DAY_WORDS.dayBefore}: </span>← {shortDay(before)}
      </a>
      <a href={`/desk/days/${after}`}>
        <span class="unseen">{DAY_WORDS.dayAfter}: </span>
        {shortDay(after)} →
      </a>
      <label>
        {DAY_WORDS.whichDay}{' '}
        <input
          type="date"
          class="day-input"
          value={day}
          onChange={({ currentTarget: { value } }) =>
            isDayText(value) && route(`/desk/days/${value}`)
          }
        />
      </label>
    </p>
  );
}

/** What plans of days stand on. */
function DayMore({ day }: { day: string }) {
  const isOffice = useService().session.person.role !== 'technician';
  return (
    <p class="line-up no-print">
      {isOffice && <a href={`/desk/quarters/${mondayFrom(day)}`}>{QUARTER_WORDS.title}</a>}
      <a href="/desk/planning">{PLANNING_WORDS.title}</a>
      {isOffice && <a href={`/desk/visits/new?on=${day}`}>{BOOK_VISIT_WORDS.title}</a>}
      <a href="/desk/work-times">{WORK_TIMES_WORDS.title}</a>
      <a href="/desk/calendar-links">{FEED_WORDS.title}</a>
    </p>
  );
}

function NotPlanned(props: DayRead & { onChanged: () => void }) {
  const { visits, sites, technicians } = props;
  const isOffice = useService().session.person.role !== 'technician';
  const nameOf = (id: string | null) =>
    technicians.find(({ personId }) => personId === id)?.name ?? DAY_WORDS.nobodyNamed;
  return (
    <>
      <p class="first-place">{DAY_WORDS.none}</p>
      <p>{DAY_WORDS.noneWhat}</p>
      <MakePlan {...props} />
      <h2>{DAY_WORDS.visits}</h2>
      {visits.length === 0 && <p>{DAY_WORDS.noVisits}</p>}
      <ul>
        {visits.map(({ id, siteId, fromTime, technicianId, purpose }) => (
          <li key={id}>
            {fromTime !== null && `${fromTime} `}
            <a href={`/desk/sites/${siteId}`}>
              {sites.find((one) => one.id === siteId)?.name}
            </a>: {nameOf(technicianId)}. <span class="soft">{purpose}</span>{' '}
            {isOffice && <a href={`/desk/visits/${id}`}>{BOOK_VISIT_WORDS.change.open}</a>}
          </li>
        ))}
      </ul>
    </>
  );
}
