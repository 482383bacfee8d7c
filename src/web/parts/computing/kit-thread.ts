import type { LocateResult } from '#app/locator/index.js';
import type { KitTask } from './kit-worker.js';
import type { LocatedKit, Supposed } from './locate-kit.js';

interface Told {
  id: number;
  result?: LocateResult;
  refused?: string;
}

/** The locator in a thread of the page's own. Of tasks that come while one is worked on, the last alone is done. */
export class KitThread {
  private readonly worker = new Worker(new URL('./kit-worker.ts', import.meta.url), {
    type: 'module',
  });
  private last = 0;

  constructor(
    private readonly kit: LocatedKit,
    private readonly onResult: (result: LocateResult | undefined) => void,
  ) {
    this.worker.addEventListener('message', ({ data }: MessageEvent<Told>) => {
      if (data.id === this.last) this.onResult(data.result);
    });
  }

  suppose(supposed: readonly Supposed[]): void {
    const task: KitTask = { id: ++this.last, kit: this.kit, supposed, explanations: 0 };
    this.worker.postMessage(task);
  }

  end(): void {
    this.worker.terminate();
  }
}
