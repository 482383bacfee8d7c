import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';

import type KeptEnvironment from './kept-environment.js';
import { type FileGlobals, setJestGlobals } from './jest-globals.js';

const require = createRequire(import.meta.url);
const EVENT_HANDLERS = Symbol.for('EVENT_HANDLERS');

/** Loads test files as Node does, where Jest's own runtime would have each file load and compile all it imports anew. */
export default class KeptRuntime {
  constructor(
    _config: unknown,
    private readonly environment: KeptEnvironment,
  ) {}

  /** Of Jest's own: what collects and runs tests. A new one for each file, so that none sees another's. */
  requireInternalModule(path: string): unknown {
    delete require.cache[path];
    delete (globalThis as Record<symbol, unknown>)[EVENT_HANDLERS];
    return require(path);
  }

  requireModule(path: string): unknown {
    return require(path);
  }

  unstable_shouldLoadAsEsm(): boolean {
    return true;
  }

  unstable_importModule(path: string): Promise<unknown> {
    return import(pathToFileURL(path).href);
  }

  setGlobalsForRuntime(globals: Omit<FileGlobals, 'jest'>): void {
    const { moduleMocker, fakeTimersModern } = this.environment;
    const jest = {
      fn: moduleMocker.fn.bind(moduleMocker),
      spyOn: moduleMocker.spyOn.bind(moduleMocker),
      useFakeTimers(settings?: Parameters<typeof fakeTimersModern.useFakeTimers>[0]) {
        fakeTimersModern.useFakeTimers(settings);
      },
      useRealTimers: () => fakeTimersModern.useRealTimers(),
      advanceTimersByTime: (ms: number) => fakeTimersModern.advanceTimersByTime(ms),
    };
    setJestGlobals({ ...globals, jest: jest as unknown as FileGlobals['jest'] });
  }

  getSourceMaps(): ReadonlyMap<string, string> {
    return new Map();
  }

  getAllCoverageInfoCopy(): undefined {
    return undefined;
  }

  enterTestCode(): void {}

  leaveTestCode(): void {}

  teardown(): void {}
}
