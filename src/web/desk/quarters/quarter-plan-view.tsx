import { useState } from 'preact/hooks';
import { TableWithSheet } from '../../parts/sheet-table.js';
import { shortDay } from '../../parts/time-words.js';
import type { PlacedQuarterVisit, ReadQuarterPlan, ReadWorkingTime } from '../../parts/wire.js';
import { QuarterDrawing } from './quarter-drawing.js';
import { QuarterPanel, WhyLeft } from './quarter-panel.js';
import { type NameOf, quarterInNumbers } from './quarter-sentences.js';
import { keyOfVisit } from './quarter-want.js';
import { daysApart, laysWeeks, type StrandKind } from './quarter-weeks.js';
import type { UsedQuarter } from './use-quarter.js';
import { DAY_WORDS, QUARTER_WORDS } from '../words/words.js';

interface QuarterPlanViewProps {
  plan: ReadQuarterPlan;
  quarter: UsedQuarter;
  technicians: readonly ReadWorkingTime[];
  by: StrandKind;
  isPlanner: boolean;
}

/** A plan: its numbers, the weeks, one visit to look into, and what is left. */
export function QuarterPlanView(props: QuarterPlanViewProps) {
  const { plan, quarter, technicians, by, isPlanner } = props;
  const [chosen, setChosen] = useState<string>();
  const nameOf: NameOf = (technicianId) =>
    technicians.find(({ personId }) => personId === technicianId)?.name ?? DAY_WORDS.someone;
  const weeks = laysWeeks(plan.from, plan.placed, by);
  const visit = [...plan.placed, ...plan.left].find((one) => keyOfVisit(one) === chosen);
  const areaName = (area: string) => nameOfArea(plan.placed, area);
  return (
    <>
      {quarterInNumbers(plan, quarter.madeAt, quarter.isFirst && !quarter.isPlanning).map(
        (sentence) => (
          <p key={sentence}>{sentence}</p>
        ),
      )}
      <Moved plan={plan} quarter={quarter} />
      <DrawnBy by={by} from={plan.from} />
      <div class={visit === undefined ? undefined : 'beside is-long'}>
        <QuarterDrawing
          weeks={weeks}
          by={by}
          strandName={by === 'area' ? areaName : nameOf}
          nameOf={nameOf}
          wants={quarter.wants}
          before={quarter.before}
          chosen={chosen}
          onChoose={setChosen}
        />
        {visit !== undefined && (
          <QuarterPanel
            key={chosen}
            visit={visit}
            placed={plan.placed}
            from={plan.from}
            technicians={technicians}
            nameOf={nameOf}
            quarter={quarter}
            isPlanner={isPlanner}
            onClose={() => setChosen(undefined)}
          />
        )}
      </div>
      <Left plan={plan} onChoose={setChosen} />
      <h2>{QUARTER_WORDS.asTable}</h2>
      <QuarterTable plan={plan} nameOf={nameOf} />
    </>
  );
}

/** The first site of an area, and how many others are near to it. */
function nameOfArea(placed: readonly PlacedQuarterVisit[], area: string): string {
  const own = placed.filter((one) => String(one.area) === area);
  const sites = new Set(own.map(({ siteId }) => siteId));
  return QUARTER_WORDS.near(own[0]?.siteName ?? '', sites.size - 1);
}

function Moved({ plan, quarter }: Pick<QuarterPlanViewProps, 'plan' | 'quarter'>) {
  const moved = plan.placed.filter((one) => {
    const was = quarter.before[keyOfVisit(one)];
    return was !== undefined && (was.on !== one.on || was.technicianId !== one.technicianId);
  });
  return moved.length === 0 ? null : <p>{QUARTER_WORDS.moved(moved.length)}</p>;
}

function DrawnBy({ by, from }: { by: StrandKind; from: string }) {
  const words = QUARTER_WORDS;
  const kinds = { technician: words.byTechnician, area: words.byArea };
  return (
    <p class="no-print">
      {words.drawnBy}:{' '}
      {(['technician', 'area'] as const).map((kind) => (
        <a
          key={kind}
          class="drawn-by"
          href={`/desk/quarters/${from}${kind === 'area' ? '?by=area' : ''}`}
          aria-current={kind === by ? 'true' : undefined}
        >
          {kinds[kind]}
        </a>
      ))}
    </p>
  );
}

function Left({ plan, onChoose }: { plan: ReadQuarterPlan; onChoose: (key: string) => void }) {
  return (
    <section>
      <h2>{QUARTER_WORDS.left}</h2>
      {plan.left.length === 0 && <p>{QUARTER_WORDS.allPlaced}</p>}
      {plan.left.map((visit) => (
        <div key={keyOfVisit(visit)}>
          <h3>
            <button type="button" class="small" onClick={() => onChoose(keyOfVisit(visit))}>
              {visit.siteName}
            </button>{' '}
            <span class="soft">{QUARTER_WORDS.visitOf(visit.ordinal, visit.year)}</span>
          </h3>
          <WhyLeft visit={visit} />
        </div>
      ))}
    </section>
  );
}

function QuarterTable({ plan, nameOf }: { plan: ReadQuarterPlan; nameOf: NameOf }) {
  const words = QUARTER_WORDS;
  return (
    <TableWithSheet
      label={words.title}
      stacks
      download={words.csv}
      fileName={`${words.title} ${plan.from}`}
      rows={plan.placed}
      keyOf={keyOfVisit}
      columns={[
        { head: words.day, value: ({ on }) => on, shown: ({ on }) => shortDay(on) },
        { head: words.who, value: ({ technicianId }) => nameOf(technicianId) },
        { head: words.where, value: ({ siteName }) => siteName },
        { head: words.best, value: ({ ideal }) => ideal, shown: ({ ideal }) => shortDay(ideal) },
        { head: words.away, value: ({ ideal, on }) => daysApart(ideal, on) },
      ]}
    />
  );
}
