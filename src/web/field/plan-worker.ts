import { ImpossibleEvidence, InvalidLocateRequest } from '#app/locator/index.js';
import { planOnKit, type PlanOnKit, suspectedOnKit } from '#app/walks/plan-on-kit.js';
import type { WhyNoPlan } from './plan-thread.js';

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
    const why = whyNot(error);
    self.postMessage(wants === 'plan' ? { key, refused: why } : { key, suspected: null });
  }
});

function whyNot(error: unknown): WhyNoPlan {
  if (error instanceof ImpossibleEvidence) return 'contradiction';
  // What the locator does not take is told; all else is a fault of ours.
  if (!(error instanceof InvalidLocateRequest)) reportError(error);
  return 'failed';
}
