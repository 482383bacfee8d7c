// One request of HOSTILE in a process of its own: `node hostile-case.js NAME`; prints what it took, as JSON.
import { InvalidLocateRequest, locate } from '#app/locator/index.js';
import { HOSTILE } from '../locator/hostile-requests.js';

const request = HOSTILE[process.argv[2] ?? '']?.();
const before = process.cpuUsage();
const start = performance.now();
let said: string;
try {
  const { explanations = [], explanationsEndedEarly } = locate(request);
  said = `${explanations.length} explanations${explanationsEndedEarly ? ', ended early' : ''}`;
} catch (error) {
  if (!(error instanceof InvalidLocateRequest)) throw error;
  said = `refused: ${error.errors[0]?.reason}`;
}
const milliseconds = performance.now() - start;
const { user, system } = process.cpuUsage(before);
const processor = (user + system) / 1000;
const megabytes = process.resourceUsage().maxRSS / 1024;
console.log(JSON.stringify({ milliseconds, processor, megabytes, said }));
