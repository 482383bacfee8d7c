import { AsyncLocalStorage } from 'node:async_hooks';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { Injectable, Logger, type OnApplicationShutdown } from '@nestjs/common';
import { Piscina } from 'piscina';
import { BusyError } from '../shared/domain-error.js';
import { type Carried, type CarriedClass, unpack } from './carried-error.js';

/** The request thread has one for itself; one job at a time leaves at least one to requests. */
const THREADS = Math.max(2, availableParallelism() - 1);

/** So many wait at most; who comes then is told to come again. */
const QUEUED = 200;

/** From being asked for to the answer, the time in the queue with it. */
const LONGEST_MS = 20_000;

/** The same of what is slow: a thread of its own, so that nobody who waits for a location waits behind it. */
const SLOW = { threads: 1, queued: 20, longestMs: 60_000 };

/** The same of a job, which nobody waits for. */
const LONGEST_OF_A_JOB_MS = 120_000;

/** A task that takes more is ended, and with it only its thread. */
const MEMORY_MB = 1024;

/** Of it for what is new: tables of a large site are cleared away less often, a tenth of the work. */
const YOUNG_MB = 96;

/**
 * What a thread gives way by (nice): on two processors arithmetic would share the one of the request thread. Of threads on Linux
 * alone; elsewhere the whole process would give way.
 */
const GIVES_WAY = process.platform === 'linux' ? 10 : 0;

const RETRY_AFTER_SECONDS = 2;

export class ComputeSettings {
  /** @param givesWay whether arithmetic waits for all else on the machine; where that has no end it never gets its turn in time */
  constructor(readonly givesWay = true) {}
}

/** Something to work out: a file that exports it, made with `carrying`, and the errors that it may throw. */
export interface Task<Input, Answer> {
  file: URL;
  errors: Readonly<Record<string, CarriedClass>>;
  /** Takes seconds, as plans do. */
  isSlow?: boolean;
  /** There for the types alone. */
  of?: (input: Input) => Answer;
}

/** What tells that two questions of a task are the same, and so are answered by the same. */
export interface SameQuestion<Answer> {
  key: string;
  /** What is known of it by the time that its turn comes. */
  known?: () => Answer | undefined;
}

type Pool = Piscina<unknown, Carried<unknown>>;

/** Something that is being worked out, for as many as wait for it. */
interface UnderWay {
  /** Of its task and key; null: nobody else asks the same. */
  name: string | null;
  answer: Promise<Carried<unknown>>;
  waiting: number;
  /** When the next of several who wait goes on. */
  turn: Promise<void>;
  /** Given up when nobody waits any more. */
  end: AbortController;
}

const asking = new AsyncLocalStorage<AbortSignal>();

/** Arithmetic off the request thread: one pool of threads for the whole process, and one for what is slow. */
@Injectable()
export class ComputeService implements OnApplicationShutdown {
  /** Started by the first task. */
  private quick?: Pool;
  private slow?: Pool;
  /** Ends with the last job that was asked for. */
  private jobs: Promise<unknown> = Promise.resolve();
  /** By their names. */
  private readonly underWay = new Map<string, UnderWay>();
  /** What requests wait for now, but for what is slow: that has its own thread. */
  private readonly waitedFor = new Set<Promise<unknown>>();
  private isOver = false;
  private readonly logger = new Logger('Compute');

  constructor(private readonly settings: ComputeSettings = new ComputeSettings()) {}

  /** What is asked for within the work is given up when the signal comes: whoever wanted it is gone. */
  whileAsked<T>(signal: AbortSignal, work: () => Promise<T>): Promise<T> {
    return asking.run(signal, work);
  }

  /**
   * Works something out on a free thread; what is the same as something that is under way waits for that. Throws
   * {@link BusyError} when too many wait, when it takes too long or too much memory, or when whoever asked has left; and what
   * the task throws.
   */
  run<Input, Answer>(
    task: Task<Input, Answer>,
    input: Input,
    same?: SameQuestion<Answer>,
  ): Promise<Answer> {
    if (task.isSlow) return this.work(task, input, SLOW.longestMs, same);
    const answer = this.work(task, input, LONGEST_MS, same);
    const done = answer.then(ignore, ignore).finally(() => this.waitedFor.delete(done));
    this.waitedFor.add(done);
    return answer;
  }

  /**
   * The same for a job: one after the other, and each after what requests wait for by then, so that they never keep requests
   * from being answered nor take half the machine from them. Who asks later is not waited for.
   */
  runJob<Input, Answer>(
    task: Task<Input, Answer>,
    input: Input,
    same?: SameQuestion<Answer>,
  ): Promise<Answer> {
    const turn = this.jobs
      .then(() => Promise.all(this.waitedFor))
      .then(() => this.work(task, input, LONGEST_OF_A_JOB_MS, same));
    this.jobs = turn.catch(() => undefined);
    return turn;
  }

  private async work<Input, Answer>(
    task: Task<Input, Answer>,
    input: Input,
    longestMs: number,
    same?: SameQuestion<Answer>,
  ): Promise<Answer> {
    // A job whose turn comes while the app stops would start threads that nobody ends.
    if (this.isOver) throw new BusyError(RETRY_AFTER_SECONDS);
    const known = same?.known?.();
    if (known !== undefined) return known;
    const asker = asking.getStore();
    if (asker?.aborted) throw new BusyError(RETRY_AFTER_SECONDS);
    const one = this.join(task, input, same?.key);
    const limit = new AbortController();
    const timer = setTimeout(() => limit.abort(), longestMs);
    const signal = asker === undefined ? limit.signal : AbortSignal.any([asker, limit.signal]);
    try {
      const carried = await unlessLeft(one.answer, signal);
      if (one.waiting > 1) await takeTurn(one);
      return unpack(carried as Carried<Answer>, task.errors);
    } catch (error) {
      if (signal.aborted) throw new BusyError(RETRY_AFTER_SECONDS);
      throw error;
    } finally {
      clearTimeout(timer);
      this.leave(one);
    }
  }

  private join<Input, Answer>(task: Task<Input, Answer>, input: Input, key?: string): UnderWay {
    const name = key === undefined ? null : `${task.file.href} ${key}`;
    const one = (name !== null && this.underWay.get(name)) || this.begin(task, input, name);
    one.waiting++;
    return one;
  }

  private leave(one: UnderWay): void {
    one.waiting--;
    if (one.waiting > 0) return;
    if (one.name !== null) this.underWay.delete(one.name);
    one.end.abort();
  }

  private begin<Input, Answer>(
    { file, isSlow = false }: Task<Input, Answer>,
    input: Input,
    name: string | null,
  ): UnderWay {
    const nice = this.settings.givesWay ? GIVES_WAY : 0;
    const pool = isSlow
      ? (this.slow ??= startPool(SLOW.threads, SLOW.queued, nice))
      : (this.quick ??= startPool(THREADS, QUEUED, nice));
    if (pool.queueSize >= pool.options.maxQueue) throw new BusyError(RETRY_AFTER_SECONDS);
    const end = new AbortController();
    const answer = pool.run({ file: file.href, input }, { signal: end.signal }).catch((error) => {
      throw isOutOfMemory(error) ? this.tooLarge(file) : error;
    });
    const one = { name, answer, waiting: 0, turn: Promise.resolve(), end };
    if (name !== null) this.underWay.set(name, one);
    return one;
  }

  /** For whoever asked it is as what takes too long; whoever runs the service is told which task it was. */
  private tooLarge({ href }: URL): BusyError {
    this.logger.error(`${href.slice(href.lastIndexOf('/') + 1)} needed more than ${MEMORY_MB} MB`);
    return new BusyError(RETRY_AFTER_SECONDS);
  }

  async onApplicationShutdown(): Promise<void> {
    this.isOver = true;
    await Promise.all([this.quick?.destroy(), this.slow?.destroy()]);
    this.quick = this.slow = undefined;
  }
}

function isOutOfMemory(error: unknown): boolean {
  return (error as { code?: unknown } | null)?.code === 'ERR_WORKER_OUT_OF_MEMORY';
}

function ignore(): void {
  // Whoever asked is told.
}

/** What each of them sends may be large: whoever asks for something else comes in between. */
function takeTurn(one: UnderWay): Promise<void> {
  return (one.turn = one.turn.then(() => new Promise((resolve) => setImmediate(resolve))));
}

function unlessLeft<T>(answer: Promise<T>, signal: AbortSignal): Promise<T> {
  return new Promise((resolve, reject) => {
    const leave = () => reject(new Error('Whoever asked has left'));
    signal.addEventListener('abort', leave, { once: true });
    answer.then(resolve, reject);
  });
}

function startPool(threads: number, queued: number, nice: number): Pool {
  return new Piscina({
    filename: fileURLToPath(new URL('thread.cjs', import.meta.url)),
    minThreads: 0,
    maxThreads: threads,
    maxQueue: queued,
    idleTimeout: 30_000,
    niceIncrement: nice,
    resourceLimits: { maxOldGenerationSizeMb: MEMORY_MB, maxYoungGenerationSizeMb: YOUNG_MB },
  });
}
