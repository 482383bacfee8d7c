import { carrying } from '../compute/carried-error.js';
import { owedVisits } from './contract-visits.js';

export default carrying(owedVisits);
