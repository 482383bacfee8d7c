import { planOnKit, type PlanOnKit, suspectedOnKit } from '#app/walks/plan-on-kit.js';

export interface PlanTask {
  key: string;
  question: PlanOnKit;
}

export interface WantedOfPlan extends PlanTask {
  wants: 'plan' | 'suspected';
}

// The page’s other thread: it answers each task in turn.
self.addEventListener('message', ({ data }: MessageEvent<WantedOfPlan>) => {
  const { key, question, wants } = data;
  try {
    if (wants === 'plan') self.postMessage({ key, plan: planOnKit(question) });
    else self.postMessage({ key, suspected: suspectedOnKit(question) });
  } catch (error) {
    self.postMessage(wants === 'plan' ? { key, refused: String(error) } : { key, suspected: null });
  }
});
