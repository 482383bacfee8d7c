import { setImmediate } from 'node:timers/promises';

/** A task that is worked out on a thread: the file that exports it, and what it is asked. */
interface Asked {
  file: string;
  input: unknown;
}

/**
 * What each thread of the pool runs. CommonJS, and the task by import() alone: the pool takes its own file by require(), and a thread that
 * is ended while require() loads a module ends the whole process with it (decision 0039).
 *
 * A thread waits for its next task without a turn of its event loop, so what a task leaves to a later turn would lie there for ever:
 * each PDF did, some megabytes. It has its turn before the answer goes.
 */
async function work({ file, input }: Asked): Promise<unknown> {
  const task = (await import(file)) as { default: (input: unknown) => unknown };
  try {
    return await task.default(input);
  } finally {
    await setImmediate();
  }
}

export = work;
