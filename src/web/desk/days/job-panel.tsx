import { Loaded } from '../../parts/states.js';
import { useService } from '../../parts/service-context.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import type { ReadJobWish } from '../../parts/wire.js';
import type { PlannedJob, UndoneJob } from './day-lanes.js';
import type { DayPlanProps } from './day-plan-view.js';
import { partsInWords, spareInWords, startInWords } from './day-sentences.js';
import { WishForm } from './wish-form.js';
import { BOOK_VISIT_WORDS, DAY_WORDS } from '../words/words.js';

export interface JobPanelProps extends DayPlanProps {
  job: PlannedJob | UndoneJob;
  nameOf: (technicianId: string) => string;
  onClose: () => void;
}

/** One job of a plan: why it is where it is, and what somebody wants of it. */
export function JobPanel(props: JobPanelProps) {
  const { job, nameOf, onClose } = props;
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const { role } = useService().session.person;
  const isOffice = role !== 'technician';
  const isPlanner = role === 'owner' || role === 'dispatcher';
  return (
    <aside class="panel" aria-label={job.siteName}>
      <div class="line-up">
        <h2 tabIndex={-1} ref={heading}>
          <a href={`/desk/sites/${job.siteId}`}>{job.siteName}</a>
        </h2>
        <button type="button" class="small" onClick={onClose}>
          {DAY_WORDS.close}
        </button>
      </div>
      <p>
        {job.ticketNumbers.length === 0 && DAY_WORDS.visit}
        {job.ticketNumbers.map((number) => (
          <a key={number} href={`/desk/tickets/${number}`}>
            {DAY_WORDS.ticket(number)}{' '}
          </a>
        ))}
        {job.kind === 'visit' && isOffice && (
          <a href={`/desk/visits/${job.jobId}`}>{BOOK_VISIT_WORDS.change.open}</a>
        )}
      </p>
      <p>{DAY_WORDS.lasts[job.minutesFrom](job.minutes)}</p>
      {'arrives' in job && <WhyHere job={job} nameOf={nameOf} />}
      {job.placeIsUnknown && <p class="notice">{DAY_WORDS.placeUnknown}</p>}
      {isPlanner && <WishOfJob {...props} />}
    </aside>
  );
}

function WhyHere({ job, nameOf }: { job: PlannedJob; nameOf: (id: string) => string }) {
  const { instead } = job;
  return (
    <>
      <h3>{DAY_WORDS.why}</h3>
      <p>
        {instead === null
          ? DAY_WORDS.nobodyElse
          : DAY_WORDS.instead(nameOf(instead.technicianId), instead.extraMinutes)}
      </p>
      <p>
        {DAY_WORDS.spare}: {spareInWords(job)}
      </p>
      <p>{startInWords(job)}</p>
      {partsInWords(job, nameOf).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
    </>
  );
}

/** A ticket of an accepted plan is a visit by now, of which other things are wanted. */
function WishOfJob(props: JobPanelProps) {
  const service = useService();
  const { jobId } = props.job;
  const path = `/plans/jobs/${jobId}/wish`;
  const read = useRead(path, async () => ({ wish: await service.find<ReadJobWish>(path) }));
  return (
    <Loaded read={read}>
      {({ wish }) => wish && <WishForm key={wish.version} {...props} wish={wish} />}
    </Loaded>
  );
}
