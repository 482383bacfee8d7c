import { type LocatedKit, locateKit, locateSupposing, type Supposed } from './locate-kit.js';

export interface KitTask {
  id: number;
  kit: LocatedKit;
  /** Left out: the kit as it is. */
  supposed?: readonly Supposed[];
  explanations: number;
}

// The page's other thread: it answers each task in turn.
self.addEventListener('message', ({ data }: MessageEvent<KitTask>) => {
  const { id, kit, supposed = [], explanations } = data;
  try {
    const result =
      supposed.length > 0 ? locateSupposing(kit, supposed) : locateKit(kit, explanations);
    self.postMessage({ id, result });
  } catch (error) {
    self.postMessage({ id, refused: String(error) });
  }
});
