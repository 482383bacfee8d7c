/** A class of errors that a task may throw and whoever asked for it must tell from others. */
export type CarriedClass = abstract new (...given: never[]) => Error;

/** What a thread sends back: errors would lose their class and their members on the way. */
export type Carried<Answer> = { answer: Answer } | { failure: CarriedFailure };

interface CarriedFailure {
  name: string;
  message: string;
  stack: string | undefined;
  members: object;
}

/** A task as the thread runs it. */
export function carrying<Input, Answer>(
  work: (input: Input) => Answer,
): (input: Input) => Carried<Answer> {
  return (input) => {
    try {
      return { answer: work(input) };
    } catch (error) {
      if (!(error instanceof Error)) throw error;
      const { message, stack } = error;
      return { failure: { name: error.constructor.name, message, stack, members: { ...error } } };
    }
  };
}

/** What the task answered; throws what it threw, as one of the classes where it is one. */
export function unpack<Answer>(
  carried: Carried<Answer>,
  classes: Readonly<Record<string, CarriedClass>>,
): Answer {
  if ('answer' in carried) return carried.answer;
  const { name, message, stack, members } = carried.failure;
  const prototype: unknown = Object.hasOwn(classes, name) ? classes[name]?.prototype : undefined;
  const error = new Error(prototype === undefined ? `${name}: ${message}` : message);
  if (prototype !== undefined) Object.setPrototypeOf(error, prototype);
  throw Object.assign(error, members, { stack });
}
