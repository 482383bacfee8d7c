import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fastifyStatic from '@fastify/static';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { FastifyInstance, FastifyRequest } from 'fastify';

/** Where `npm run build` puts the pages. */
const BUILT = new URL('web/', import.meta.url);

/** Addresses of pages, and the built file of each; what stands behind `/*` is the page's own to tell apart. */
const PAGES: Readonly<Record<string, string>> = {
  '/account': 'sign-in/account',
  '/desk': 'desk/desk',
  '/desk/*': 'desk/desk',
  '/field': 'field/field',
  '/field/*': 'field/field',
  '/first-start': 'sign-in/first-start',
  '/pass': 'office/pass',
  '/password': 'sign-in/password',
  '/sign-in': 'sign-in/sign-in',
  '/way-out': 'sign-in/way-out',
};

/** What has one name always: asked for anew each time, like the pages. */
const FILES: Readonly<Record<string, string>> = {
  'field-worker.js': 'text/javascript; charset=utf-8',
  'field.webmanifest': 'application/manifest+json',
  'field-icon.svg': 'image/svg+xml',
};

/**
 * Serves the pages. They are asked for anew each time, because a new build has other assets; the assets' names change
 * with what is in them, so a browser may keep them for ever.
 */
export async function servePages(app: NestFastifyApplication): Promise<void> {
  const fastify = app.getHttpAdapter().getInstance();
  for (const [address, page] of Object.entries(PAGES)) {
    const html = readBuilt(`${page}.html`);
    fastify.get(address, (_request, reply) =>
      reply.type('text/html; charset=utf-8').header('cache-control', 'no-cache').send(html),
    );
  }
  for (const [name, type] of Object.entries(FILES)) {
    const text = readBuilt(name);
    fastify.get(`/${name}`, (_request, reply) =>
      reply.type(type).header('cache-control', 'no-cache').send(text),
    );
  }
  showFailures(fastify);
  fastify.get('/', (_request, reply) => reply.redirect('/sign-in'));
  await app.register(fastifyStatic, {
    root: fileURLToPath(new URL('assets/', BUILT)),
    prefix: '/assets/',
    index: false,
    decorateReply: false,
    // The build leaves each in gzip beside it.
    preCompressed: true,
    immutable: true,
    maxAge: '365d',
  });
}

/** Where somebody looks at an address in a browser, they are told in words; programs get the problem document. */
function showFailures(fastify: FastifyInstance): void {
  const missing = readBuilt('plain/missing.html');
  const broken = readBuilt('plain/broken.html');
  fastify.addHook('onSend', (request, reply, payload, done) => {
    const { statusCode } = reply;
    const isFailure = statusCode === 404 || statusCode >= 500;
    if (!isFailure || !isLookedAt(request)) {
      done(null, payload);
      return;
    }
    const html = statusCode === 404 ? missing : broken;
    void reply.type('text/html; charset=utf-8').header('content-length', Buffer.byteLength(html));
    done(null, html);
  });
}

function isLookedAt({ method, url, headers }: FastifyRequest): boolean {
  return (
    method === 'GET' &&
    !/^\/(api|assets|health)\//.test(url) &&
    (headers.accept ?? '').includes('text/html')
  );
}

function readBuilt(file: string): string {
  try {
    return readFileSync(new URL(file, BUILT), 'utf8');
  } catch (cause) {
    throw new Error('The pages are not built; `npm run build` builds them.', { cause });
  }
}
