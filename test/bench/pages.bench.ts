import { openBrowser } from '../support/open-browser.js';
import { onSlowPhone } from '../support/slow-phone.js';
import { drawBenchSite, withService } from './bench-service.js';

type Log = (line: string) => void;

const TIMES = 5;
const PROMISED_MS = 2000;

/** From an empty browser on a slow phone until an office can touch its rooms, against the two seconds that it is meant to take at most. */
export async function benchPages(log: Log): Promise<void> {
  await withService(async ({ api, serve, server }) => {
    const siteId = await drawBenchSite(api, 40);
    const { link } = await api.post<{ link: string }>(`/sites/${siteId}/passes`, {});
    const { pathname, hash } = new URL(link);
    const address = await serve('app-server.js', [server.appUrl]);
    const browser = await openBrowser();
    const taken: number[] = [];
    let bytes = 0;
    try {
      for (let time = 0; time < TIMES; time++) {
        const context = await browser.newContext({ viewport: { width: 360, height: 740 } });
        const page = await context.newPage();
        const asked = await onSlowPhone(page);
        const began = performance.now();
        await page.goto(`${address}${pathname}${hash}`);
        await page
          .getByRole('button', { name: /^Room 40 / })
          .first()
          .waitFor();
        taken.push(performance.now() - began);
        bytes = asked.bytes();
        await context.close();
      }
    } finally {
      await browser.close();
    }
    const median = taken.sort((a, b) => a - b)[Math.floor(TIMES / 2)] ?? 0;
    log(
      `the office page of 40 rooms on a slow phone (4x CPU, 150 ms, 1.6 Mbit/s), median of ${TIMES}: ` +
        `${median.toFixed(0)} ms until it can be used, ${(median / PROMISED_MS).toFixed(2)} of what it may take; ` +
        `${(bytes / 1000).toFixed(0)} kB over the network`,
    );
  });
}
