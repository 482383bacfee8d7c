import { carrying } from '../compute/carried-error.js';
import { refuseRegion } from './public-holidays.js';

export default carrying(refuseRegion);
