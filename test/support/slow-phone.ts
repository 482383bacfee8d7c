import type { Page } from 'playwright-core';

/** What was asked of the network until now. */
export interface AskedOfNetwork {
  paths: string[];
  /** As it came over the network, with its headers. */
  bytes: () => number;
}

/** As a slow phone on slow 4G: 150 ms there and back, 1.6 and 0.75 Mbit/s, a quarter of this processor (memory: what page audits take). */
export async function onSlowPhone(page: Page): Promise<AskedOfNetwork> {
  const session = await page.context().newCDPSession(page);
  const paths: string[] = [];
  let bytes = 0;
  session.on('Network.requestWillBeSent', ({ request }) => {
    const { protocol, pathname } = new URL(request.url);
    if (protocol === 'http:') paths.push(pathname);
  });
  session.on('Network.loadingFinished', ({ encodedDataLength }) => (bytes += encodedDataLength));
  await session.send('Network.enable');
  await session.send('Network.emulateNetworkConditions', {
    offline: false,
    latency: 150,
    downloadThroughput: (1.6e6 / 8) | 0,
    uploadThroughput: (0.75e6 / 8) | 0,
  });
  await session.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  return { paths, bytes: () => bytes };
}
