import { benchAccuracy } from './accuracy.bench.js';
import { benchApi } from './api.bench.js';
import { benchChecks } from './checks.bench.js';
import { benchHostile } from './hostile.bench.js';
import { benchLocator } from './locator.bench.js';
import { benchReport } from './report.bench.js';
import { benchToulbar2 } from './toulbar2.bench.js';
import { benchWalk } from './walk.bench.js';

benchLocator();
benchToulbar2();
benchChecks(console.log);
benchWalk(console.log);
benchAccuracy(console.log);
benchHostile(console.log);
await benchApi(console.log);
await benchReport(console.log);
