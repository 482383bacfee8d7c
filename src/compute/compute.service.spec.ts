import { describe, expect, it, jest } from '@jest/globals';
import { Logger } from '@nestjs/common';
import { Piscina } from 'piscina';
import { BusyError } from '../shared/domain-error.js';
import { ComputeService } from './compute.service.js';

describe('the pool', () => {
  const task = { file: new URL('no-such.worker.js', import.meta.url), errors: {} };

  it('starts no thread any more once the app stops, for a request or for a job that waited', async () => {
    const compute = new ComputeService();
    await compute.onApplicationShutdown();
    await expect(compute.run(task, undefined)).rejects.toThrow(BusyError);
    await expect(compute.runJob(task, undefined)).rejects.toThrow(BusyError);
  });

  it('tells whoever asks for what needs more memory than a thread has to come again, and goes on', async () => {
    const told = jest.spyOn(Logger.prototype, 'error').mockImplementation(() => undefined);
    const inline = (code: string) => ({
      file: new URL(`data:text/javascript,export default ${code}`),
      errors: {},
    });
    const greedy = inline('() => { const kept = []; for (;;) kept.push(Array(1e6).fill(0)); }');
    const compute = new ComputeService();
    // However long the memory takes to be used up where the machine is busy, it is not the time that ends this.
    jest.useFakeTimers({ doNotFake: ['nextTick', 'queueMicrotask', 'setImmediate'] });
    try {
      const asked = [compute.run(greedy, 1), compute.run({ ...greedy, isSlow: true }, 1)];
      for (const one of await Promise.allSettled(asked))
        expect(one).toEqual({ status: 'rejected', reason: expect.any(BusyError) });
      expect(told).toHaveBeenCalledTimes(2);
      expect(told).toHaveBeenCalledWith(expect.stringContaining('1024 MB'));
      const modest = inline('(input) => ({ answer: input + 1 })');
      await expect(compute.run(modest, 1)).resolves.toBe(2);
    } finally {
      jest.useRealTimers();
      told.mockRestore();
      await compute.onApplicationShutdown();
    }
  });

  it('leaves nothing in a thread that a task left to a later turn', async () => {
    const left = `(fails) => {
      const turns = (globalThis.turns ??= { asked: 0, had: 0 });
      const told = { answer: { ...turns } };
      turns.asked += 2;
      process.nextTick(() => process.nextTick(() => turns.had++));
      setImmediate(() => turns.had++);
      if (fails) throw new TypeError('left behind');
      return told;
    }`;
    const file = new URL(`data:text/javascript,export default ${encodeURIComponent(left)}`);
    const compute = new ComputeService();
    try {
      const ask = (fails: boolean) => compute.run({ file, errors: {}, isSlow: true }, fails);
      for (let time = 0; time < 5; time++) {
        expect(await ask(false)).toEqual({ asked: time * 4, had: time * 4 });
        await expect(ask(true)).rejects.toThrow('left behind');
      }
    } finally {
      await compute.onApplicationShutdown();
    }
  });

  it('begins a job after what requests wait for by then, whether that is answered or not, and not after who comes later', async () => {
    const begun: { end: (fails?: boolean) => void }[] = [];
    const run = jest.spyOn(Piscina.prototype, 'run').mockImplementation(
      () =>
        new Promise((resolve, reject) => {
          const end = (fails = false) => {
            if (fails) reject(new Error('No'));
            else resolve({ answer: begun.length });
          };
          begun.push({ end });
        }),
    );
    const settle = async () => {
      for (let turn = 0; turn < 20; turn++) await Promise.resolve();
    };
    const compute = new ComputeService();
    const first = compute.run(task, undefined);
    const second = compute.run(task, undefined).catch(() => 'failed');
    const job = compute.runJob(task, undefined);
    await settle();
    expect(begun).toHaveLength(2);
    const later = compute.run(task, undefined);
    expect(begun).toHaveLength(3);
    begun[0]!.end();
    begun[1]!.end(true);
    await Promise.all([first, second]);
    await settle();
    expect(begun).toHaveLength(4);
    for (const { end } of begun) end();
    await Promise.all([later, job]);
    run.mockRestore();
    await compute.onApplicationShutdown();
  });

  it('lets others in between those who waited for the same', async () => {
    let end = (): void => undefined;
    const run = jest
      .spyOn(Piscina.prototype, 'run')
      .mockImplementation(() => new Promise((resolve) => (end = () => resolve({ answer: 7 }))));
    const compute = new ComputeService();
    const order: string[] = [];
    const asked = Array.from({ length: 4 }, (_, i) =>
      compute.run(task, undefined, { key: 'same' }).then(() => order.push(`asker ${i}`)),
    );
    const others = (left: number) => {
      order.push('another');
      if (left > 0) setImmediate(others, left - 1);
    };
    setImmediate(others, 4);
    end();
    await Promise.all(asked);
    expect(run).toHaveBeenCalledTimes(1);
    const told = order.join(' ').replaceAll('another another', 'another');
    expect(told).toMatch(/asker 0 another asker 1 another asker 2 another asker 3/);
    run.mockRestore();
    await compute.onApplicationShutdown();
  });
});
