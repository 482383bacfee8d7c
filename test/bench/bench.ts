import { benchAccuracy } from './accuracy.bench.js';
import { benchApi } from './api.bench.js';
import { benchChecks } from './checks.bench.js';
import { benchContradictions } from './contradictions.bench.js';
import { benchDispatch } from './dispatch.bench.js';
import { benchHostile } from './hostile.bench.js';
import { benchLocator } from './locator.bench.js';
import { benchPages } from './pages.bench.js';
import { benchPlans } from './plans.bench.js';
import { benchReport } from './report.bench.js';
import { benchService } from './service.bench.js';
import { benchToulbar2 } from './toulbar2.bench.js';
import { benchWalk } from './walk.bench.js';

/** What `npm run bench` measures, in this order; names after it choose some of them. */
const BENCHES: Record<string, () => unknown> = {
  locator: () => benchLocator(),
  toulbar2: () => benchToulbar2(),
  checks: () => benchChecks(console.log),
  contradictions: () => benchContradictions(console.log),
  walk: () => benchWalk(console.log),
  dispatch: () => benchDispatch(console.log),
  accuracy: () => benchAccuracy(console.log),
  hostile: () => benchHostile(console.log),
  report: () => benchReport(console.log),
  service: () => benchService(console.log),
  pages: () => benchPages(console.log),
  plans: () => benchPlans(console.log),
  reads: () => benchApi(console.log),
};

const chosen = process.argv.slice(2);
for (const name of chosen)
  if (!(name in BENCHES))
    throw new Error(`There is ${Object.keys(BENCHES).join(', ')}; no ${name}`);
for (const [name, bench] of Object.entries(BENCHES))
  if (chosen.length === 0 || chosen.includes(name)) await bench();
