import { carrying } from '../compute/carried-error.js';
import { makeJobSheet } from './make-job-sheet.js';

export default carrying(makeJobSheet);
