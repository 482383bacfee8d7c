import type { WalkAnswer } from '#app/walks/plan-ticket-walk.js';
import type { PlanTask } from './plan-worker.js';

/** What came of planning: a plan, or why there is none. */
export type Planned = { plan: WalkAnswer } | { refused: string };

/** So many plans are remembered: those of the endings of some steps. */
const MOST_REMEMBERED = 30;

/**
 * The planner in a thread of the page’s own. What is asked for now goes before what may be asked for next, which is planned
 * while somebody is on the way.
 */
export class PlanThread {
  private worker: Worker | undefined;
  private working: { key: string } | undefined;
  private urgent: PlanTask | undefined;
  private ahead: PlanTask[] = [];
  private readonly known = new Map<string, Planned>();

  constructor(private readonly onPlanned: (key: string, planned: Planned) => void) {}

  find(key: string): Planned | undefined {
    return this.known.get(key);
  }

  /** The last that is asked for is told; `next` is planned when there is time. */
  ask(task: PlanTask, next: readonly PlanTask[] = []): void {
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
    const task = this.urgent ?? this.ahead.shift();
    if (task === undefined) return;
    this.working = { key: task.key };
    this.urgent = undefined;
    this.worker ??= this.start();
    this.worker.postMessage(task);
  }

  private start(): Worker {
    const worker = new Worker(new URL('./plan-worker.ts', import.meta.url), { type: 'module' });
    worker.addEventListener('message', ({ data }: MessageEvent<{ key: string } & Planned>) => {
      const { key, ...planned } = data;
      this.working = undefined;
      this.remember(key, planned);
      this.onPlanned(key, planned);
      this.goOn();
    });
    return worker;
  }

  private remember(key: string, planned: Planned): void {
    this.known.set(key, planned);
    const [oldest] = this.known.keys();
    if (this.known.size > MOST_REMEMBERED && oldest !== undefined) this.known.delete(oldest);
  }
}
