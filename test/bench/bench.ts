import { benchApi } from './api.bench.js';
import { benchLocator } from './locator.bench.js';

benchLocator();
await benchApi(console.log);
