import type { Lanes } from './day-lanes.js';
import { jobInWords, spareInWords } from './day-sentences.js';
import { DAY_WORDS } from '../words/words.js';

interface DayDrawingProps {
  lanes: Lanes;
  nameOf: (technicianId: string) => string;
  chosen: string | undefined;
  onChoose: (jobId: string) => void;
}

/** Lanes of hours, one for each technician: travel as a line, work as a block to touch. */
export function DayLanes({ lanes: { from, until, lanes }, nameOf, ...rest }: DayDrawingProps) {
  const share = (minute: number) => `${(100 * (minute - from * 60)) / ((until - from) * 60)}%`;
  const place = (span: { from: number; until: number }) => ({
    left: share(span.from),
    width: `${(100 * Math.max(1, span.until - span.from)) / ((until - from) * 60)}%`,
  });
  const hours = Array.from({ length: until - from + 1 }, (_, index) => from + index);
  return (
    <div class="lanes">
      <div class="lane-scale" aria-hidden="true">
        {hours.map((hour) => (
          <span key={hour} style={{ left: share(hour * 60) }}>
            {hour}
          </span>
        ))}
      </div>
      {lanes.map((lane) => (
        <div
          class="lane"
          key={lane.technicianId}
          role="group"
          aria-label={nameOf(lane.technicianId)}
        >
          <p class="lane-name">{nameOf(lane.technicianId)}</p>
          <div class="lane-track">
            {lane.hours && <span class="lane-hours" style={place(lane.hours)} />}
            {lane.jobs.map(({ job, order, travel, work }) => (
              <LaneJob
                key={job.jobId}
                {...rest}
                job={job}
                order={order}
                travel={place(travel)}
                work={place(work)}
              />
            ))}
          </div>
        </div>
      ))}
      <p class="hint lane-legend" aria-hidden="true">
        <span class="lane-travel-sample" /> {DAY_WORDS.legendTravel}
        <span class="lane-hours-sample" /> {DAY_WORDS.legendHours}
      </p>
    </div>
  );
}

interface LaneJobProps extends Pick<DayDrawingProps, 'chosen' | 'onChoose'> {
  job: Lanes['lanes'][number]['jobs'][number]['job'];
  order: number;
  travel: { left: string; width: string };
  work: { left: string; width: string };
}

function LaneJob({ job, order, travel, work, chosen, onChoose }: LaneJobProps) {
  const { jobId, siteName, begins, ends, lateMinutes } = job;
  return (
    <>
      {job.travelMinutes > 0 && <span class="lane-travel" style={travel} />}
      <button
        type="button"
        class={lateMinutes > 0 ? 'lane-job is-late' : 'lane-job'}
        style={work}
        aria-pressed={jobId === chosen}
        aria-label={`${order}. ${siteName}, ${begins}–${ends}`}
        onClick={() => onChoose(jobId)}
      >
        {order} <span class="lane-site">{siteName}</span>
      </button>
    </>
  );
}

/** The same in rows: who, in which order, when, where, and how long the way is. */
export function DayTable({ lanes: { lanes }, nameOf, onChoose }: DayDrawingProps) {
  const { who, order, arrives, begins, ends, where, travel, spare } = DAY_WORDS;
  const rows = lanes.flatMap(({ technicianId, jobs }) =>
    jobs.map((one) => ({ ...one, technicianId })),
  );
  return (
    <div class="scrolls" tabIndex={0} role="region" aria-label={DAY_WORDS.asTable}>
      <table>
        <thead>
          <tr>
            {[who, order, where, travel, arrives, begins, ends, spare].map((words) => (
              <th key={words} scope="col">
                {words}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ technicianId, job, order: nth }) => (
            <tr key={job.jobId}>
              <th scope="row">{nameOf(technicianId)}</th>
              <td class="number">{nth}</td>
              <td>
                <button type="button" class="small" onClick={() => onChoose(job.jobId)}>
                  {job.siteName}
                </button>{' '}
                <span class="soft">{jobInWords(job)}</span>
              </td>
              <td class="number">{DAY_WORDS.minutes(job.travelMinutes)}</td>
              <td class="number">{job.arrives}</td>
              <td class="number">{job.begins}</td>
              <td class="number">{job.ends}</td>
              <td class={job.lateMinutes > 0 ? 'fresh' : undefined}>{spareInWords(job)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
