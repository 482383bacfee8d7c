import { carrying } from '../compute/carried-error.js';
import { learnClasses } from './learned-rates.js';

export default carrying(learnClasses);
