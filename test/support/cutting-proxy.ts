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
  private readonly toCut: { method: string; path: RegExp; isCut: () => void }[] = [];
  /** Of each answer that was cut, what was asked. */
  readonly cut: string[] = [];

  /** Answers with the address to open. */
  async before(address: string): Promise<string> {
    this.server = createServer((asked, answer) => {
      const { method = 'GET', url = '', headers } = asked;
      const forwarded = request(`${address}${url}`, { method, headers }, (got) => {
        const at = this.toCut.findIndex((one) => one.method === method && one.path.test(url));
        const [cut] = at < 0 ? [] : this.toCut.splice(at, 1);
        if (cut !== undefined) {
          this.cut.push(`${method} ${url}`);
          void cutInTheMiddle(got, answer).then(cut.isCut);
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

  /** The next answer to it. Resolves once it is cut. */
  cutNext(method: string, path: RegExp): Promise<void> {
    return new Promise((isCut) => void this.toCut.push({ method, path, isCut }));
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
