import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fastifyStatic from '@fastify/static';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';

/** Where `npm run build` puts the pages. */
const BUILT = new URL('web/', import.meta.url);

/** Addresses of pages, and the built file of each; what stands behind `/*` is the page's own to tell apart. */
const PAGES: Readonly<Record<string, string>> = {
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
  fastify.get('/', (_request, reply) => reply.redirect('/sign-in'));
  await app.register(fastifyStatic, {
    root: fileURLToPath(new URL('assets/', BUILT)),
    prefix: '/assets/',
    index: false,
    decorateReply: false,
    immutable: true,
    maxAge: '365d',
  });
}

function readBuilt(file: string): string {
  try {
    return readFileSync(new URL(file, BUILT), 'utf8');
  } catch (cause) {
    throw new Error('The pages are not built; `npm run build` builds them.', { cause });
  }
}
