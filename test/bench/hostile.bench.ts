import { locate } from '#app/locator/index.js';
import { seededRandom } from '#app/statistics/seeded-random.js';
import { hostileShapes } from '../locator/hostile-shapes.js';

const SHAPES = 150;

/** Prints the longest and the largest of many locations of drawings that are meant to cost much. */
export function benchHostileShapes(seed = 1): void {
  let slowest = { name: '', milliseconds: 0 };
  let largest = { name: '', megabytes: 0 };
  let refused = 0;
  let early = 0;
  for (const { name, request } of hostileShapes(SHAPES, seededRandom(seed))) {
    const before = process.cpuUsage();
    try {
      const answer = locate(request);
      early += answer.explanationsEndedEarly ? 1 : 0;
      const megabytes = JSON.stringify(answer).length / 1e6;
      if (megabytes > largest.megabytes) largest = { name, megabytes };
    } catch {
      refused++;
    }
    const { user, system } = process.cpuUsage(before);
    const milliseconds = (user + system) / 1e3;
    if (milliseconds > slowest.milliseconds) slowest = { name, milliseconds };
  }
  const peak = process.resourceUsage().maxRSS / 1024;
  console.log(`locator: ${SHAPES} drawings and evidence that are meant to cost much, seed ${seed}`);
  console.log(`  slowest  ${slowest.milliseconds.toFixed(0)} ms of CPU: ${slowest.name}`);
  console.log(`  largest answer  ${largest.megabytes.toFixed(1)} MB: ${largest.name}`);
  console.log(
    `  peak of the process ${peak.toFixed(0)} MB, ${early} lists ended early, ${refused} refused`,
  );
}
