import { locate } from '#app/locator/index.js';
import { faultNetwork } from '../locator/toulbar2/fault-network.js';
import { Toulbar2 } from '../locator/toulbar2/run-toulbar2.js';
import { uai, uaiEvidence } from '../locator/toulbar2/uai.js';
import { benchRequest, medianMilliseconds } from './locator.bench.js';

const LIMIT_MILLISECONDS = 60_000;

/**
 * Prints the time of one location, all outputs, in a warm process, beside that of a general-purpose exact solver's whole
 * process on the same full model: a variable for every component.
 */
export function benchToulbar2(): void {
  console.log(
    'toulbar2: its whole process on the full model, beside one location with all outputs',
  );
  for (const stations of [12, 40]) {
    const request = benchRequest(stations, stations);
    for (let i = 0; i < 300; i++) locate(request);
    const ours = medianMilliseconds(101, () => locate(request));
    console.log(`  ${String(stations).padStart(5)} stations  ${ours.toFixed(2)} ms median, locate`);
    const network = faultNetwork(request);
    const toulbar2 = new Toulbar2(uai(network), LIMIT_MILLISECONDS);
    const evidence = uaiEvidence(network);
    const tasks = {
      'the most probable assignment': () => toulbar2.mostProbable(evidence),
      'log P(evidence)': () => toulbar2.evidence(evidence),
    };
    for (const [task, work] of Object.entries(tasks))
      console.log(`${' '.repeat(18)}${timed(work, ours)}, ${task}`);
    toulbar2.close();
  }
}

function timed(work: () => unknown, ours: number): string {
  try {
    const theirs = medianMilliseconds(3, work);
    return `${theirs.toFixed(0)} ms, ${(theirs / ours).toFixed(0)} times as long`;
  } catch (error) {
    const reason = (error as Error).message;
    if (reason.includes('ENOENT')) return 'toulbar2 is not installed';
    if (reason.includes('ETIMEDOUT')) return `not done in ${LIMIT_MILLISECONDS / 1000} s`;
    throw error;
  }
}
