import {
  createServer,
  request,
  type IncomingMessage,
  type Server,
  type ServerResponse,
} from 'node:http';
import type { AddressInfo } from 'node:net';

/** Stands before the app as a bad signal does: an answer that is to be cut ends in its middle, though the app did what was asked. */
export class CuttingProxy {
  private server: Server | undefined;
  private readonly toCut: { method: string; path: RegExp }[] = [];
  /** Of each answer that was cut, what was asked. */
  readonly cut: string[] = [];

  /** Answers with the address to open. */
  async before(address: string): Promise<string> {
    this.server = createServer((asked, answer) => {
      const { method = 'GET', url = '', headers } = asked;
      const forwarded = request(`${address}${url}`, { method, headers }, (got) => {
        const at = this.toCut.findIndex((one) => one.method === method && one.path.test(url));
        if (at >= 0) {
          this.toCut.splice(at, 1);
          this.cut.push(`${method} ${url}`);
          void cutInTheMiddle(got, answer);
          return;
        }
        answer.writeHead(got.statusCode ?? 502, got.headers);
        got.pipe(answer);
      });
      forwarded.on('error', () => answer.destroy());
      answer.on('close', () => forwarded.destroy());
      asked.pipe(forwarded);
    });
    await new Promise<void>((resolve) => this.server?.listen(0, '127.0.0.1', resolve));
    return `http://127.0.0.1:${(this.server.address() as AddressInfo).port}`;
  }

  /** The next answer to it. */
  cutNext(method: string, path: RegExp): void {
    this.toCut.push({ method, path });
  }

  async close(): Promise<void> {
    this.server?.closeAllConnections();
    await new Promise((resolve) => this.server?.close(resolve));
  }
}

async function cutInTheMiddle(got: IncomingMessage, answer: ServerResponse): Promise<void> {
  const parts: Buffer[] = [];
  for await (const part of got) parts.push(part as Buffer);
  const whole = Buffer.concat(parts);
  const headers = { ...got.headers, 'content-length': String(whole.length) };
  delete headers['transfer-encoding'];
  answer.writeHead(got.statusCode ?? 502, headers);
  answer.write(whole.subarray(0, Math.ceil(whole.length / 2)), () => answer.destroy());
}
