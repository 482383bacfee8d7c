import { benchAccuracy } from './accuracy.bench.js';
import { benchApi } from './api.bench.js';
import { benchLocator } from './locator.bench.js';
import { benchToulbar2 } from './toulbar2.bench.js';
import { benchWalk } from './walk.bench.js';

benchLocator();
benchToulbar2();
benchWalk(console.log);
benchAccuracy(console.log);
await benchApi(console.log);
