import { shortDay } from '../../parts/time-words.js';
import { placeInWords, type NameOf } from './quarter-sentences.js';
import { keyOfVisit, type QuarterPlace, type Wants } from './quarter-want.js';
import type { DrawnVisit, Outing, StrandKind, Week, Weeks } from './quarter-weeks.js';
import { QUARTER_WORDS } from '../words/words.js';

export interface QuarterDrawingProps {
  weeks: Weeks;
  by: StrandKind;
  strandName: (strand: string) => string;
  nameOf: NameOf;
  wants: Wants;
  before: Readonly<Record<string, QuarterPlace>>;
  chosen: string | undefined;
  /** Undefined: nothing is to be chosen yet. */
  onChoose: ((key: string) => void) | undefined;
}

/** Weeks go down like rope, a strand for each technician or area; where somebody is out, a knot, and the visits hang on it. */
export function QuarterDrawing(props: QuarterDrawingProps) {
  const { strands, weeks } = props.weeks;
  return (
    <div class="scrolls" tabIndex={0} role="region" aria-label={QUARTER_WORDS.weeks}>
      <div class="ropes" style={{ '--strands': strands.length }}>
        <div class="rope-heads" aria-hidden="true">
          <span />
          {strands.map((strand) => (
            <span key={strand}>{props.strandName(strand)}</span>
          ))}
        </div>
        {weeks.map((week) => (
          <RopeWeek {...props} key={week.from} week={week} />
        ))}
      </div>
      {props.onChoose !== undefined && (
        <p class="hint" aria-hidden="true">
          <PullDrawn days={14} /> ○ {QUARTER_WORDS.legendBest} · ◆ {QUARTER_WORDS.legendHere}
        </p>
      )}
    </div>
  );
}

function RopeWeek({ week, ...props }: QuarterDrawingProps & { week: Week }) {
  const { strandName, weeks } = props;
  const isEmpty = week.outings.every((outings) => outings.length === 0);
  return (
    <section
      class={isEmpty ? 'rope-week is-empty' : 'rope-week'}
      aria-label={QUARTER_WORDS.weekOf(shortDay(week.from))}
    >
      <p class="rope-when">
        {shortDay(week.from)}
        {isEmpty && <span class="unseen">: {QUARTER_WORDS.nothing}</span>}
      </p>
      {week.outings.map((outings, index) => (
        <div class="rope" key={weeks.strands[index]}>
          {outings.map((outing) => (
            <Knot
              {...props}
              key={outing.on}
              outing={outing}
              strand={strandName(weeks.strands[index] ?? '')}
            />
          ))}
        </div>
      ))}
    </section>
  );
}

function Knot({
  outing,
  strand,
  ...props
}: QuarterDrawingProps & { outing: Outing; strand: string }) {
  const { by, nameOf } = props;
  return (
    <div class="knot" role="group" aria-label={`${shortDay(outing.on)}, ${strand}`}>
      <p class="knot-day">
        {shortDay(outing.on)} <span class="knot-who">{strand}</span>
      </p>
      {outing.ways.map(({ technicianId, visits }, index) => (
        <div class={visits.length > 1 && technicianId ? 'way is-shared' : 'way'} key={index}>
          {by === 'area' && technicianId && <p class="soft">{nameOf(technicianId)}</p>}
          {visits.length > 1 && technicianId && (
            <p class="soft">{QUARTER_WORDS.oneWay(visits.length)}</p>
          )}
          {visits.map((drawn) => (
            <Hanging {...props} key={keyOfVisit(drawn.visit)} drawn={drawn} />
          ))}
        </div>
      ))}
    </div>
  );
}

function Hanging({ drawn, ...props }: QuarterDrawingProps & { drawn: DrawnVisit }) {
  const { wants, before, nameOf, chosen, onChoose } = props;
  const { visit, away } = drawn;
  const key = keyOfVisit(visit);
  const was = before[key];
  const isMoved =
    was !== undefined &&
    'on' in visit &&
    (was.on !== visit.on || was.technicianId !== visit.technicianId);
  const facts = [
    ...('on' in visit ? [QUARTER_WORDS.pull(away)] : []),
    ...(!('on' in visit) && away > 0 ? [QUARTER_WORDS.bestIs(shortDay(visit.ideal))] : []),
    ...(visit.isLate ? [QUARTER_WORDS.late] : []),
    ...(wants[key] === undefined ? [] : [QUARTER_WORDS.wanted(wants[key].changedBy)]),
    ...(isMoved ? [QUARTER_WORDS.was(placeInWords(was, nameOf))] : []),
  ];
  const said = (
    <>
      <span class="hanging-site">{visit.siteName}</span>
      {'on' in visit && <PullDrawn days={away} />}
      <span class="hanging-facts">{facts.join(' · ')}</span>
    </>
  );
  if (onChoose === undefined || !('on' in visit)) return <p class="hanging">{said}</p>;
  return (
    <button
      type="button"
      class={isMoved ? 'hanging is-moved' : 'hanging'}
      aria-pressed={key === chosen}
      onClick={() => onChoose(key)}
    >
      {said}
    </button>
  );
}

/** Half as wide, in days and in pixels. */
const PULL = 24;

/** How far from its best day something lies: the string that pulls it there. */
function PullDrawn({ days }: { days: number }) {
  const at = PULL + Math.max(4 - PULL, Math.min(PULL - 4, days));
  return (
    <svg
      class="pull"
      width={2 * PULL}
      height="10"
      viewBox={`0 0 ${2 * PULL} 10`}
      aria-hidden="true"
    >
      <line class="pull-scale" x1="0" x2={2 * PULL} y1="5" y2="5" />
      <line class="pull-string" x1={PULL} x2={at} y1="5" y2="5" />
      <circle class="pull-best" cx={PULL} cy="5" r="3.5" />
      <path class="pull-here" d={`M${at} 1 l4 4 l-4 4 l-4 -4z`} />
    </svg>
  );
}
