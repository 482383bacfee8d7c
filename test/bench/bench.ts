import { benchLocator } from './locator.bench.js';

benchLocator();
