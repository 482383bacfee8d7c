import { carrying } from '../compute/carried-error.js';
import { learnModes } from './learned-rates.js';

export default carrying(learnModes);
