import { carrying } from '../compute/carried-error.js';
import { jobPaper } from './job-paper.js';
import { type JobSheetQuestion, makeJobSheet } from './make-job-sheet.js';

export default carrying((question: JobSheetQuestion) =>
  jobPaper(makeJobSheet(question), question.language),
);
