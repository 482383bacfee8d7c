import { useEffect, useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { Failure } from '../../parts/failure.js';
import type { Service } from '../../parts/service.js';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { shortDay } from '../../parts/time-words.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import type { ReadOwedQuarter, ReadWorkingTime } from '../../parts/wire.js';
import { isDayText } from '../days/day-lanes.js';
import { useLive } from '../use-live.js';
import { MakeQuarter } from './make-quarter.js';
import { QuarterDrawing } from './quarter-drawing.js';
import { QuarterPlanView } from './quarter-plan-view.js';
import { laysWeeks, type StrandKind } from './quarter-weeks.js';
import { useQuarter } from './use-quarter.js';
import { PLANNING_WORDS, QUARTER_WORDS } from '../words/words.js';

/** Everything that the page of a quarter shows of itself; the plan is the reader's own. */
export interface QuarterRead {
  owed: ReadOwedQuarter;
  technicians: ReadWorkingTime[];
}

/** Which promised visit is made when and by whom, and what could not be placed. */
export function QuarterPage({ day = '' }: { day?: string }) {
  const service = useService();
  const read = useRead(`quarter ${day}`, () => readQuarter(service, day));
  useLive(read.again);
  useEffect(() => {
    document.title = QUARTER_WORDS.title;
  }, []);
  return (
    <Loaded read={read}>
      {(all) => <QuarterView key={day} {...all} onChanged={read.again} />}
    </Loaded>
  );
}

async function readQuarter(service: Service, day: string): Promise<QuarterRead> {
  if (!isDayText(day)) throw new Failure(404, day);
  const [owed, times] = await Promise.all([
    service.read<ReadOwedQuarter>(`/plans/quarters/${day}`),
    service.read<{ items: ReadWorkingTime[] }>('/working-times'),
  ]);
  return { owed, technicians: times.items };
}

function QuarterView({ owed, technicians, onChanged }: QuarterRead & { onChanged: () => void }) {
  const { role } = useService().session.person;
  const { query } = useLocation();
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const quarter = useQuarter(owed, onChanged);
  const by: StrandKind = query.by === 'area' ? 'area' : 'technician';
  const isPlanner = role === 'owner' || role === 'dispatcher';
  const words = QUARTER_WORDS;
  return (
    <article>
      <div class="line-up">
        <h1 tabIndex={-1} ref={heading}>
          {words.title}
        </h1>
        <FirstDay from={owed.from} />
        <a class="no-print" href="/desk/planning">
          {PLANNING_WORDS.title}
        </a>
      </div>
      <p class="hint">{words.from(shortDay(owed.from))}</p>
      <p class="hint">{words.what}</p>
      <p class="first-place">{words.owed(owed.visits.length)}</p>
      {owed.isCutOff && <p class="notice">{words.cutOff}</p>}
      {isPlanner && <MakeQuarter owed={owed} quarter={quarter} />}
      {quarter.plan === null ? (
        <NotPlanned owed={owed} />
      ) : (
        <QuarterPlanView
          plan={quarter.plan}
          quarter={quarter}
          technicians={technicians}
          by={by}
          isPlanner={isPlanner}
        />
      )}
    </article>
  );
}

function FirstDay({ from }: { from: string }) {
  const { route } = useLocation();
  return (
    <label class="no-print">
      {QUARTER_WORDS.otherStart}{' '}
      <input
        type="date"
        class="day-input"
        value={from}
        onChange={({ currentTarget: { value } }) =>
          isDayText(value) && route(`/desk/quarters/${value}`)
        }
      />
    </label>
  );
}

function NotPlanned({ owed }: { owed: ReadOwedQuarter }) {
  const [nothing] = useState({});
  if (owed.visits.length === 0) return null;
  return (
    <>
      <p>{QUARTER_WORDS.owedWhere}</p>
      <QuarterDrawing
        weeks={laysWeeks(owed.from, owed.visits, 'technician')}
        by="technician"
        strandName={() => QUARTER_WORDS.notPlanned}
        nameOf={() => ''}
        wants={nothing}
        before={nothing}
        chosen={undefined}
        onChoose={undefined}
      />
    </>
  );
}
