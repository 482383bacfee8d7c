import type { SuspectedOnKit } from '#app/walks/plan-on-kit.js';
import type { WalkAnswer } from '#app/walks/plan-ticket-walk.js';
import type { PlanTask, WantedOfPlan } from './plan-worker.js';

/** What came of planning: a plan, or why there is none. */
export type Planned = { plan: WalkAnswer } | { refused: WhyNoPlan };

/** What was told cannot be true together; or no plan could be worked out from it. */
export type WhyNoPlan = 'contradiction' | 'failed';

type Answered = { key: string } & (Planned | { suspected: SuspectedOnKit | null });

/** So many plans are remembered: those of the endings of some steps. */
const MOST_REMEMBERED = 30;

/**
 * The planner in a thread of the page’s own. What is asked for now goes before where the trouble lies by then, and that before
 * what may be asked for next, which is planned while somebody is on the way.
 */
export class PlanThread {
  private worker: Worker | undefined;
  private working: { key: string } | undefined;
  private urgent: PlanTask | undefined;
  private shown: PlanTask | undefined;
  private ahead: PlanTask[] = [];
  private readonly known = new Map<string, Planned>();
  private readonly suspected = new Map<string, SuspectedOnKit | null>();

  constructor(private readonly onAnswered: () => void) {}

  find(key: string): Planned | undefined {
    return this.known.get(key);
  }

  /** Null: the locator does not take what was told. */
  findSuspected(key: string): SuspectedOnKit | null | undefined {
    return this.suspected.get(key);
  }

  /** The last that is asked for is told; `next` is planned when there is time. */
  ask(task: PlanTask, next: readonly PlanTask[] = []): void {
    this.shown = task;
    this.ahead = next.filter(({ key }) => !this.known.has(key) && key !== this.working?.key);
    const known = this.known.get(task.key);
    if (known !== undefined) this.urgent = undefined;
    else if (this.working?.key !== task.key) {
      this.urgent = task;
      // What was planned ahead and is not it has to wait.
      if (this.working !== undefined) this.end();
    }
    this.goOn();
  }

  end(): void {
    this.worker?.terminate();
    this.worker = undefined;
    this.working = undefined;
  }

  private goOn(): void {
    if (this.working !== undefined) return;
    const task = this.nextTask();
    if (task === undefined) return;
    this.working = { key: task.key };
    this.worker ??= this.start();
    this.worker.postMessage(task);
  }

  private nextTask(): WantedOfPlan | undefined {
    const { urgent, shown } = this;
    if (urgent !== undefined) {
      this.urgent = undefined;
      return { ...urgent, wants: 'plan' };
    }
    if (shown !== undefined && !this.suspected.has(shown.key))
      return { ...shown, wants: 'suspected' };
    const task = this.ahead.shift();
    return task && { ...task, wants: 'plan' };
  }

  private start(): Worker {
    const worker = new Worker(new URL('./plan-worker.ts', import.meta.url), { type: 'module' });
    worker.addEventListener('message', ({ data }: MessageEvent<Answered>) => {
      this.working = undefined;
      const { key, ...answered } = data;
      if ('suspected' in answered) remember(this.suspected, key, answered.suspected);
      else remember(this.known, key, answered);
      this.onAnswered();
      this.goOn();
    });
    return worker;
  }
}

function remember<Value>(known: Map<string, Value>, key: string, value: Value): void {
  known.set(key, value);
  const [oldest] = known.keys();
  if (known.size > MOST_REMEMBERED && oldest !== undefined) known.delete(oldest);
}
