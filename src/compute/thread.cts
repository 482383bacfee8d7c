/** A task that is worked out on a thread: the file that exports it, and what it is asked. */
interface Asked {
  file: string;
  input: unknown;
}

/**
 * What each thread of the pool runs. CommonJS, and the task by import() alone: the pool takes its own file by require(), and a thread that
 * is ended while require() loads a module ends the whole process with it (decision 0039).
 */
async function work({ file, input }: Asked): Promise<unknown> {
  const task = (await import(file)) as { default: (input: unknown) => unknown };
  return task.default(input);
}

export = work;
