import { useEffect } from 'preact/hooks';
import { ask } from '../parts/ask.js';
import { Failure } from '../parts/failure.js';
import { PAGE_WORDS } from '../parts/language.js';
import { Loaded } from '../parts/states.js';
import { useRead } from '../parts/use-read.js';
import type { ReadJobSheet } from '../parts/wire.js';
import { FIELD_WORDS } from './field-words.js';

/** The job sheet of a visit as the service makes it now, to be read or printed; without a signal it says so. */
export function JobSheetPage({ id = '' }: { id?: string }) {
  const read = useRead(`job sheet ${id}`, async () => {
    const job = await ask<ReadJobSheet>('GET', `/visits/${encodeURIComponent(id)}/job-sheet`);
    return { job, JobSheet: await view() };
  });
  useEffect(() => {
    document.title = FIELD_WORDS.jobSheet;
  }, []);
  return (
    <>
      <p class="no-print">
        <a href={`/field/visits/${id}`}>{FIELD_WORDS.openVisit}</a>
      </p>
      {read.failure !== undefined && <p>{FIELD_WORDS.jobSheetNeedsSignal}</p>}
      <Loaded read={read}>{({ job, JobSheet }) => <JobSheet job={job} />}</Loaded>
    </>
  );
}

/** Comes with the sheet, which needs a signal anyway: it is no part of what the field place loads first. */
async function view() {
  try {
    return (await import('./job-sheet-view.js')).JobSheet;
  } catch {
    throw new Failure(0, PAGE_WORDS.notReached);
  }
}
