import { useService } from '../../parts/service-context.js';
import { local, shortDay } from '../../parts/time-words.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import type { LeftQuarterVisit, PlacedQuarterVisit, ReadWorkingTime } from '../../parts/wire.js';
import { conflictsInWords, type NameOf, whyThereInWords } from './quarter-sentences.js';
import { keyOfVisit } from './quarter-want.js';
import type { UsedQuarter } from './use-quarter.js';
import { WantForm } from './want-form.js';
import { PAGE_FORMATS } from '../../parts/language.js';
import { QUARTER_WORDS } from '../words/words.js';

export interface QuarterPanelProps {
  visit: PlacedQuarterVisit | LeftQuarterVisit;
  /** All that the plan places. */
  placed: readonly PlacedQuarterVisit[];
  from: string;
  technicians: readonly ReadWorkingTime[];
  nameOf: NameOf;
  quarter: UsedQuarter;
  isPlanner: boolean;
  onClose: () => void;
}

/** One visit of a plan: why it lies where it lies, and what somebody wants of it. */
export function QuarterPanel(props: QuarterPanelProps) {
  const { visit, quarter, isPlanner, onClose } = props;
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const words = QUARTER_WORDS;
  const place = 'on' in visit ? { on: visit.on, technicianId: visit.technicianId } : undefined;
  const ownName = useService().session.person.name;
  const said = quarter.wants[keyOfVisit(visit)];
  // What somebody else wanted meanwhile is not hidden by what was read before.
  const others = said !== undefined && said.changedBy !== ownName ? ` ${said.version}` : '';
  return (
    <aside class="panel" aria-label={visit.siteName}>
      <div class="line-up">
        <h2 tabIndex={-1} ref={heading}>
          <a href={`/desk/sites/${visit.siteId}`}>{visit.siteName}</a>
        </h2>
        <button type="button" class="small" onClick={onClose}>
          {words.close}
        </button>
      </div>
      <p>
        {words.visitOf(visit.ordinal, visit.year)}{' '}
        <a href={`/desk/contracts/${visit.contractId}`}>{words.contract}</a>
      </p>
      {'on' in visit ? <WhyThere {...props} visit={visit} /> : <WhyLeft visit={visit} />}
      {said !== undefined && (
        <p>{words.because(said.changedBy, local(said.changedAt), said.reason)}</p>
      )}
      {isPlanner && (
        <WantForm
          {...props}
          key={`${keyOfVisit(visit)}${others}`}
          place={place}
          quarter={quarter}
        />
      )}
    </aside>
  );
}

function WhyThere({
  visit,
  placed,
  from,
  nameOf,
}: QuarterPanelProps & { visit: PlacedQuarterVisit }) {
  const words = QUARTER_WORDS;
  const { on, technicianId, area, siteName } = visit;
  const beside = placed.filter(
    (one) =>
      one !== visit && one.on === on && one.technicianId === technicianId && one.area === area,
  );
  return (
    <>
      <p>
        {shortDay(on)}, {nameOf(technicianId)} ·{' '}
        <a href={`/desk/days/${on}`}>
          {words.toDay}
          <span class="unseen"> {siteName}</span>
        </a>
      </p>
      <h3>{words.why}</h3>
      {whyThereInWords(visit, from, nameOf).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {visit.idealConflicts.length > 0 && (
        <>
          <p>{words.bestNot}</p>
          <ConflictLines conflicts={visit.idealConflicts} />
        </>
      )}
      {beside.length > 0 && (
        <p>{words.oneWayWith(PAGE_FORMATS.and(beside.map((one) => one.siteName)))}</p>
      )}
    </>
  );
}

/** Why a visit is left, and what would have to give way. */
export function WhyLeft({ visit }: { visit: LeftQuarterVisit }) {
  const words = QUARTER_WORDS;
  return (
    <>
      <p>
        {words.whyLeft[visit.why]} {words.bestIs(shortDay(visit.ideal))}
      </p>
      {visit.conflicts.length > 1 && <p class="hint">{words.anyOne}</p>}
      <ConflictLines conflicts={visit.conflicts} />
    </>
  );
}

function ConflictLines({ conflicts }: Pick<LeftQuarterVisit, 'conflicts'>) {
  if (conflicts.length === 0) return null;
  return (
    <ul>
      {conflictsInWords(conflicts).map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}
