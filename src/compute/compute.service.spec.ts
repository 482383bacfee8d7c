import { describe, expect, it } from '@jest/globals';
import { BusyError } from '../shared/domain-error.js';
import { ComputeService } from './compute.service.js';

describe('the pool', () => {
  it('starts no thread any more once the app stops, for a request or for a job that waited', async () => {
    const compute = new ComputeService();
    await compute.onApplicationShutdown();
    const task = { file: new URL('no-such.worker.js', import.meta.url), errors: {} };
    await expect(compute.run(task, undefined)).rejects.toThrow(BusyError);
    await expect(compute.runJob(task, undefined)).rejects.toThrow(BusyError);
  });
});
