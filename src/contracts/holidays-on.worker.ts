import { carrying } from '../compute/carried-error.js';
import { holidaysOn } from './public-holidays.js';

export default carrying(holidaysOn);
