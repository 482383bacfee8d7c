// Asks an address at a steady pace, whatever is still under way, in a process of its own: who is kept waiting by something
// else would ask less often just then. `node pulse.js <url>`, told `start` and `stop`; answers with milliseconds.
import { Agent, get } from 'node:http';

const EACH_MS = 5;

const [url] = process.argv.slice(2);
const agent = new Agent({ keepAlive: true });
let times: Promise<number>[] = [];
let timer: NodeJS.Timeout | undefined;

function ask(): Promise<number> {
  const from = performance.now();
  return new Promise((resolve, reject) => {
    get(url!, { agent }, (answer) => {
      if (answer.statusCode !== 200) reject(new Error(`${url} answered ${answer.statusCode}`));
      answer.resume().on('end', () => resolve(performance.now() - from));
    }).on('error', reject);
  });
}

process.on('message', (told) => {
  if (told === 'start') {
    times = [];
    timer = setInterval(() => times.push(ask()), EACH_MS);
    return;
  }
  clearInterval(timer);
  void Promise.all(times).then((all) => process.send!(all));
});
