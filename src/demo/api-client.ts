import type { NestFastifyApplication } from '@nestjs/platform-fastify';

/** Calls the app's own API as anybody would, without a socket. A refusal is an error that says why. */
export class ApiClient {
  constructor(
    private readonly app: NestFastifyApplication,
    /** An API token of whoever calls, or the headers of somebody who signed in. */
    private readonly who: string | Readonly<Record<string, string>>,
  ) {}

  /** As somebody who signs in, for what no token may do. */
  static async signIn(
    app: NestFastifyApplication,
    email: string,
    password: string,
  ): Promise<ApiClient> {
    const payload = { email, password };
    const response = await app.inject({ method: 'POST', url: '/api/v1/session', payload });
    if (response.statusCode >= 400) throw new Error(`${email} cannot sign in: ${response.body}`);
    const { csrfToken } = response.json<{ csrfToken: string }>();
    const cookie = response.cookies.map(({ name, value }) => `${name}=${value}`).join('; ');
    return new ApiClient(app, { cookie, 'x-csrf-token': csrfToken });
  }

  get<T>(path: string): Promise<T> {
    return this.send('GET', path);
  }

  post<T>(path: string, body: object, version?: number): Promise<T> {
    const match: Record<string, string> =
      version === undefined ? {} : { 'if-match': `"${version}"` };
    const headers = { 'content-type': 'application/json', ...match };
    return this.send('POST', path, JSON.stringify(body), headers);
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
    const { who } = this;
    const asWhom = typeof who === 'string' ? { authorization: `Bearer ${who}` } : who;
    const headers = { ...asWhom, ...more };
    const url = `/api/v1${path}`;
    const response = await this.app.inject({ method, url, payload, headers });
    if (response.statusCode >= 400) {
      throw new Error(`${method} ${url} was refused (${response.statusCode}): ${response.body}`);
    }
    return response.json<T>();
  }
}
