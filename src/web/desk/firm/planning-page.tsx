import { useEffect } from 'preact/hooks';
import { PAGE_FORMATS } from '../../parts/language.js';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import type { ReadPlanningRules, ReadSite, ReadWorkingTime } from '../../parts/wire.js';
import { weekdayName } from '../contracts/contract-sentences.js';
import { hoursTogether } from './planning-draft.js';
import { RulesForm } from './rules-form.js';
import { PLANNING_WORDS, WORK_TIMES_WORDS } from '../words/words.js';

/** What plans of days and of quarters go by: who works when, and how ways and lengths are reckoned. */
export function PlanningPage() {
  const service = useService();
  const { id, role } = service.session.person;
  const isOffice = role !== 'technician';
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  useEffect(() => {
    document.title = PLANNING_WORDS.title;
  }, []);
  const read = useRead('planning', async () => {
    if (!isOffice) return undefined;
    const [times, rules, sites] = await Promise.all([
      service.read<{ items: ReadWorkingTime[] }>('/working-times'),
      service.read<ReadPlanningRules>('/planning-rules'),
      service.list<ReadSite>('/sites'),
    ]);
    return { times: times.items, rules, sites: sites.items };
  });
  const words = PLANNING_WORDS;
  return (
    <article>
      <h1 tabIndex={-1} ref={heading}>
        {words.title}
      </h1>
      <p>
        {words.hint} <a href="/desk/work-times">{WORK_TIMES_WORDS.title}</a>
      </p>
      {!isOffice && (
        <>
          <p>{words.notOffice}</p>
          <p>
            <a href={`/desk/planning/${id}/van`}>{words.van.yours}</a>
          </p>
        </>
      )}
      {isOffice && (
        <Loaded read={read}>
          {(all) =>
            all && (
              <>
                <h2>{words.who}</h2>
                <WhoWorks times={all.times} />
                <h2>{words.ways}</h2>
                <RulesForm rules={all.rules} sites={all.sites} />
              </>
            )
          }
        </Loaded>
      )}
    </article>
  );
}

function WhoWorks({ times }: { times: readonly ReadWorkingTime[] }) {
  const words = PLANNING_WORDS;
  if (times.length === 0) return <p>{words.nobody}</p>;
  return (
    <ul class="found">
      {times.map((time) => (
        <li key={time.personId}>
          <a href={`/desk/planning/${time.personId}`}>
            {time.name}
            <span>{timeInWords(time)}</span>
          </a>
        </li>
      ))}
    </ul>
  );
}

/** "Monday to Friday 08:00–16:00. Can do: tower. …" */
function timeInWords({ version, hours, skills, startLatitude }: ReadWorkingTime): string {
  const words = PLANNING_WORDS;
  if (version === 0) return words.nothingSaid;
  const days = hoursTogether(hours).map(({ first, last, from, until }) =>
    first === last
      ? words.onDay(weekdayName(first), from, until)
      : words.onDays(weekdayName(first), weekdayName(last), from, until),
  );
  return [
    days.length === 0 ? words.never : `${PAGE_FORMATS.and(days)}.`,
    ...(skills.length === 0 ? [] : [words.canDo(PAGE_FORMATS.and(skills))]),
    ...(startLatitude === null ? [words.noStart] : []),
  ].join(' ');
}
