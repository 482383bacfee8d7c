import { carrying } from '../compute/carried-error.js';
import { locate } from '../locator/index.js';

/** In JSON: a long answer then costs the request's thread next to nothing. */
export default carrying((request: unknown) => JSON.stringify(locate(request)));
