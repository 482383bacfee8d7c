import { carrying } from '../compute/carried-error.js';
import type { AsBuilt } from '../sites/as-built.js';
import { classesAtSite } from './class-at-site.js';
import type { Repair } from './ticket-experience.js';

export default carrying(({ asBuilt, repairs }: { asBuilt: AsBuilt; repairs: Repair[] }) =>
  classesAtSite(asBuilt, repairs),
);
