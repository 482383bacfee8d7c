import { useState } from 'preact/hooks';
import { useService } from '../../parts/service-context.js';
import type { ReadDayPlan } from '../../parts/wire.js';
import type { DayRead } from './day-page.js';
import { laysLanes } from './day-lanes.js';
import { DayLanes, DayTable } from './day-drawing.js';
import { JobPanel } from './job-panel.js';
import { MakePlan } from './make-plan.js';
import { obstacleInWords, planInNumbers } from './day-sentences.js';
import { DAY_WORDS } from '../words/words.js';

export interface DayPlanProps extends DayRead {
  plan: ReadDayPlan;
  onChanged: () => void;
}

/** A plan: its numbers, the lanes, what is left, and what one can want of a job. */
export function DayPlanView(props: DayPlanProps) {
  const { plan, technicians } = props;
  const { id, name } = useService().session.person;
  const [chosen, setChosen] = useState<string>();
  const nameOf = (technicianId: string) =>
    technicians.find(({ personId }) => personId === technicianId)?.name ??
    (technicianId === id ? name : DAY_WORDS.someone);
  const lanes = laysLanes(plan, technicians);
  const jobs = [...plan.routes.flatMap((route) => route.jobs), ...plan.undone];
  const job = jobs.find(({ jobId }) => jobId === chosen);
  const shown = { lanes, nameOf, chosen, onChoose: setChosen };
  return (
    <>
      {planInNumbers(plan).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {plan.isCutOff && <p class="notice">{DAY_WORDS.cutOff}</p>}
      <MakePlan {...props} />
      <h2>{DAY_WORDS.lanes}</h2>
      {plan.routes.length === 0 && <p>{DAY_WORDS.nothingPlaced}</p>}
      <div class={job === undefined ? undefined : 'beside'}>
        <div>
          <DayLanes {...shown} />
          <h3>{DAY_WORDS.asTable}</h3>
          <DayTable {...shown} />
        </div>
        {job !== undefined && (
          <JobPanel
            {...props}
            key={job.jobId}
            job={job}
            nameOf={nameOf}
            onClose={() => setChosen(undefined)}
          />
        )}
      </div>
      <Undone {...props} nameOf={nameOf} onChoose={setChosen} />
      {plan.notThere.length > 0 && (
        <p>
          {DAY_WORDS.notThere}: {plan.notThere.map(nameOf).join(', ')}
        </p>
      )}
    </>
  );
}

interface UndoneProps extends DayPlanProps {
  nameOf: (technicianId: string) => string;
  onChoose: (jobId: string) => void;
}

function Undone({ plan, nameOf, onChoose }: UndoneProps) {
  return (
    <section>
      <h2>{DAY_WORDS.undone}</h2>
      {plan.undone.length === 0 && <p>{DAY_WORDS.allPlaced}</p>}
      {plan.undone.map(({ jobId, siteName, ticketNumbers, obstacles }) => (
        <div key={jobId}>
          <h3>
            <button type="button" class="small" onClick={() => onChoose(jobId)}>
              {siteName}
            </button>{' '}
            <span class="soft">
              {ticketNumbers.map(DAY_WORDS.ticket).join(', ') || DAY_WORDS.visit}
            </span>
          </h3>
          <ul>
            {obstacles.map((one) => (
              <li key={one.technicianId}>
                {nameOf(one.technicianId)}: {obstacleInWords(one)}
              </li>
            ))}
          </ul>
        </div>
      ))}
    </section>
  );
}
