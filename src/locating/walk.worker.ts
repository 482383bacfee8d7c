import { parentPort } from 'node:worker_threads';
import { planTicketWalk, type WalkQuestion } from './plan-ticket-walk.js';

// A thread of its own: looking ahead takes up to seconds, in which the service must answer others.
parentPort?.on('message', ({ id, question }: { id: number; question: WalkQuestion }) => {
  try {
    parentPort?.postMessage({ id, answer: planTicketWalk(question) });
  } catch (error) {
    parentPort?.postMessage({ id, failure: error });
  }
});
