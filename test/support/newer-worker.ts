import { createServer, request, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';

/** Stands before the app; from `upgrade` on, as if a newer build were served: its service worker is another one. */
export class NewerWorker {
  private isNewer = false;
  private server: Server | undefined;

  /** Answers with the address to open. */
  async before(address: string): Promise<string> {
    this.server = createServer((asked, answer) => {
      const { method, url = '', headers } = asked;
      const forwarded = request(`${address}${url}`, { method, headers }, (got) => {
        if (!this.isNewer || url !== '/field-worker.js') {
          answer.writeHead(got.statusCode ?? 502, got.headers);
          got.pipe(answer);
          return;
        }
        let text = '';
        got.setEncoding('utf8');
        got.on('data', (part: string) => (text += part));
        got.on('end', () => {
          answer.writeHead(200, { 'content-type': 'text/javascript', 'cache-control': 'no-cache' });
          answer.end(text.replace('"/assets/', '"/field-icon.svg","/assets/'));
        });
      });
      forwarded.on('error', () => answer.destroy());
      answer.on('close', () => forwarded.destroy());
      asked.pipe(forwarded);
    });
    await new Promise<void>((resolve) => this.server?.listen(0, '127.0.0.1', resolve));
    return `http://127.0.0.1:${(this.server.address() as AddressInfo).port}`;
  }

  upgrade(): void {
    this.isNewer = true;
  }

  async close(): Promise<void> {
    this.server?.closeAllConnections();
    await new Promise((resolve) => this.server?.close(resolve));
  }
}
