import { getPriority } from 'node:os';

import { describe, expect, it } from '@jest/globals';
import { ComputeService, ComputeSettings } from '#app/compute/compute.service.js';

describe('a thread of the pool', () => {
  // Node 20.19 and later load modules by require() too, and end the whole process where a thread is ended meanwhile: seen with 20.20.2
  // as "FATAL ERROR: v8::Module::IsGraphAsync", in three of four processes that started and ended 500 pools each.
  it('loads what it works out by import(), never by require()', async () => {
    const compute = new ComputeService();
    const task = { file: new URL('./support/loaded.worker.js', import.meta.url), errors: {} };
    const stack = await compute.run<undefined, string>(task, undefined);
    expect(stack).toContain('loaded.worker.js');
    expect(stack).not.toMatch(/cjs\/loader|requireSync|runSync/);
    await compute.onApplicationShutdown();
  });

  // Of threads it is known on Linux alone, and nowhere else do they give way.
  (process.platform === 'linux' ? it : it.skip)(
    'gives way to the thread of the requests, unless it is told not to',
    async () => {
      const before = getPriority();
      const there = async (settings?: ComputeSettings) => {
        const compute = new ComputeService(settings);
        const task = { file: new URL('./support/nice.worker.js', import.meta.url), errors: {} };
        const priority = await compute.run<undefined, number>(task, undefined);
        await compute.onApplicationShutdown();
        return priority;
      };
      expect(await there()).toBeGreaterThanOrEqual(Math.min(before + 10, 19));
      expect(await there(new ComputeSettings(false))).toBe(before);
    },
  );
});
