import { carrying } from '../compute/carried-error.js';
import { learnRecord } from './learned-record.js';

export default carrying(learnRecord);
