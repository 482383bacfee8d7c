/** Time is an argument: services ask this, tests put a fixed one in its place. */
export abstract class Clock {
  abstract now(): Date;
}

export class SystemClock extends Clock {
  now(): Date {
    return new Date();
  }
}
