import { jobWordsIn } from '#app/words/job-words-in.js';
import { JobSheetLink } from '../parts/job-sheet-link.js';
import { PAGE_LANGUAGE } from '../parts/language.js';
import { shortDay } from '../parts/time-words.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import type { ReadJobSheet } from '../parts/wire.js';
import { FIELD_WORDS } from './field-words.js';

const JOB_WORDS = jobWordsIn(PAGE_LANGUAGE);

/** A job sheet as it is on paper, in its words. */
export function JobSheet({ job }: { job: ReadJobSheet }) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const { site, lastVisits } = job;
  const before = lastVisits.map(({ on, technician, workDone, purpose }) =>
    [shortDay(on), technician ?? '–', workDone ?? purpose].join(' · '),
  );
  return (
    <article>
      <h1 tabIndex={-1} ref={heading}>
        {JOB_WORDS.title(site.name, job.on)}
      </h1>
      <p>
        <JobSheetLink visitId={job.visitId} words={`${FIELD_WORDS.jobSheet} (PDF)`} />
      </p>
      <p>{JOB_WORDS.when(job.fromTime, job.untilTime, job.technician)}</p>
      <p class="strong">{job.purpose}</p>
      {site.address !== null && <p>{site.address}</p>}
      <h2>{JOB_WORDS.headings.safety}</h2>
      {site.safetyNotes !== null && <p class="notice">{site.safetyNotes}</p>}
      <Lines of={job.cautions} />
      {job.tickets.map((ticket) => (
        <JobTicket key={ticket.id} ticket={ticket} />
      ))}
      {job.furtherTickets.length > 0 && <p>{JOB_WORDS.further(job.furtherTickets)}</p>}
      <h2>{JOB_WORDS.headings.lastVisits}</h2>
      {before.length === 0 ? <p>{JOB_WORDS.none}</p> : <Lines of={before} />}
    </article>
  );
}

type TicketOfJob = ReadJobSheet['tickets'][number];

function JobTicket({ ticket }: { ticket: TicketOfJob }) {
  const { headings } = JOB_WORDS;
  const parts = ticket.parts.map((part) => JOB_WORDS.part(part));
  return (
    <section>
      <h2>{JOB_WORDS.ticket(ticket.number)}</h2>
      <p class="strong">{ticket.first ?? JOB_WORDS.noPlace}</p>
      <Lines of={ticket.places} />
      <h3>{headings.said}</h3>
      <Lines of={ticket.said} />
      {ticket.furtherSaid > 0 && <p>{JOB_WORDS.furtherSaid(ticket.furtherSaid)}</p>}
      {ticket.trunks.map((trunk) => (
        <JobTrunk key={trunk.trunk} trunk={trunk} />
      ))}
      {ticket.plan.length > 0 && (
        <>
          <h3>{headings.plan}</h3>
          {ticket.plan.map((line, index) => (
            <p key={index} class="plan-line" style={{ paddingLeft: `${depthOf(line) / 2}rem` }}>
              {line.trimStart()}
            </p>
          ))}
        </>
      )}
      {ticket.checks.length > 0 && (
        <>
          <h3>{headings.checks}</h3>
          <Lines of={ticket.checks} />
        </>
      )}
      <h3>{headings.parts}</h3>
      <Lines of={parts} />
      {ticket.secondTripChance !== null && <p>{JOB_WORDS.secondTrip(ticket.secondTripChance)}</p>}
    </section>
  );
}

/** By how many blanks a line of the plan is set in. */
function depthOf(line: string): number {
  return line.length - line.trimStart().length;
}

/** In the order along the cable; the drawing is on the paper. */
function JobTrunk({ trunk }: { trunk: TicketOfJob['trunks'][number] }) {
  const marks = new Map(trunk.marks.map(({ node, outcome }) => [node, outcome]));
  return (
    <>
      <h3>{JOB_WORDS.trunk(trunk.trunk)}</h3>
      <ol>
        {trunk.nodes.map(({ node, words, cableMetres }) => (
          <li key={node} class={node === trunk.lookAt ? 'strong' : undefined}>
            {JOB_WORDS.node(words, node, marks.get(node) ?? null, node === trunk.lookAt)}{' '}
            <span class="soft">{JOB_WORDS.metres(cableMetres)}</span>
          </li>
        ))}
      </ol>
    </>
  );
}

function Lines({ of }: { of: readonly string[] }) {
  return (
    <ul>
      {of.map((line, index) => (
        <li key={index}>{line}</li>
      ))}
    </ul>
  );
}
