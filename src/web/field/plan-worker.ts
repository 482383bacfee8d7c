import { planOnKit, type PlanOnKit } from '#app/walks/plan-on-kit.js';

export interface PlanTask {
  key: string;
  question: PlanOnKit;
}

// The page’s other thread: it answers each task in turn.
self.addEventListener('message', ({ data }: MessageEvent<PlanTask>) => {
  const { key, question } = data;
  try {
    self.postMessage({ key, plan: planOnKit(question) });
  } catch (error) {
    self.postMessage({ key, refused: String(error) });
  }
});
