import { PAGE_LANGUAGE } from './language.js';

interface JobSheetLinkProps {
  visitId: string;
  words: string;
}

/** All that is taken along to a visit, to be printed. */
export function JobSheetLink({ visitId, words }: JobSheetLinkProps) {
  const paper = `/api/v1/visits/${visitId}/job-sheet/paper?language=${PAGE_LANGUAGE}`;
  return (
    <a class="no-print" href={paper} target="_blank" rel="noreferrer">
      {words}
    </a>
  );
}
