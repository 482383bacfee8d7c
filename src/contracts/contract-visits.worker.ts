import { carrying } from '../compute/carried-error.js';
import { contractVisits } from './contract-visits.js';

export default carrying(contractVisits);
