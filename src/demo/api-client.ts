import type { NestFastifyApplication } from '@nestjs/platform-fastify';

/** Calls the app's own API as anybody would, without a socket. A refusal is an error that says why. */
export class ApiClient {
  constructor(
    private readonly app: NestFastifyApplication,
    /** An API token of whoever calls. */
    private readonly token: string,
  ) {}

  get<T>(path: string): Promise<T> {
    return this.send('GET', path);
  }

  post<T>(path: string, body: object): Promise<T> {
    return this.send('POST', path, JSON.stringify(body), { 'content-type': 'application/json' });
  }

  put<T>(path: string, body: object, version: number): Promise<T> {
    return this.send('PUT', path, JSON.stringify(body), {
      'content-type': 'application/json',
      'if-match': `"${version}"`,
    });
  }

  patch<T>(path: string, body: object, version: number): Promise<T> {
    return this.send('PATCH', path, JSON.stringify(body), {
      'content-type': 'application/json',
      'if-match': `"${version}"`,
    });
  }

  putSheet<T>(path: string, sheet: Buffer, version: number): Promise<T> {
    return this.send('PUT', path, sheet, {
      'content-type': 'text/csv',
      'if-match': `"${version}"`,
    });
  }

  private async send<T>(
    method: 'GET' | 'POST' | 'PUT' | 'PATCH',
    path: string,
    payload?: string | Buffer,
    more: Record<string, string> = {},
  ): Promise<T> {
    const headers = { authorization: `Bearer ${this.token}`, ...more };
    const url = `/api/v1${path}`;
    const response = await this.app.inject({ method, url, payload, headers });
    if (response.statusCode >= 400) {
      throw new Error(`${method} ${url} was refused (${response.statusCode}): ${response.body}`);
    }
    return response.json<T>();
  }
}
