// The service worker of /field: the page and all that it loads are there without a signal. Readings of the service are
// the page’s own to keep.

/** Put in by the build: everything that the page loads, with names that change with what is in them. */
declare const FIELD_FILES: readonly string[];

interface Lasting extends Event {
  waitUntil(work: Promise<unknown>): void;
}

interface Fetched extends Lasting {
  request: Request;
  respondWith(answer: Promise<Response>): void;
}

interface Scope {
  skipWaiting(): Promise<void>;
  clients: { claim(): Promise<void> };
  addEventListener(type: 'install' | 'activate', listener: (event: Lasting) => void): void;
  addEventListener(type: 'fetch', listener: (event: Fetched) => void): void;
}

const worker = globalThis as unknown as Scope;

const PAGE = '/field';
const PREFIX = 'lastheard field ';
const CACHE = `${PREFIX}${FIELD_FILES.join()}`;
/** The one before stays: pages that are open go on with what they were loaded from. */
const KEPT_CACHES = 2;

async function install(): Promise<void> {
  const cache = await caches.open(CACHE);
  await cache.addAll(
    [PAGE, ...FIELD_FILES].map((file) => new Request(file, { cache: 'no-cache' })),
  );
  await worker.skipWaiting();
}

async function activate(): Promise<void> {
  const own = (await caches.keys()).filter((name) => name.startsWith(PREFIX));
  const old = own.filter((name) => name !== CACHE);
  await Promise.all(old.slice(0, -(KEPT_CACHES - 1)).map((name) => caches.delete(name)));
  await worker.clients.claim();
}

/** The page as it was installed: with a bad signal nobody waits for it, and a new one is there the next time. */
async function answerPage(): Promise<Response> {
  const cache = await caches.open(CACHE);
  return (await cache.match(PAGE)) ?? fetch(PAGE);
}

async function answerAsset(request: Request): Promise<Response> {
  return (await caches.match(request)) ?? fetch(request);
}

worker.addEventListener('install', (event) => event.waitUntil(install()));
worker.addEventListener('activate', (event) => event.waitUntil(activate()));
worker.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== 'GET' || origin !== location.origin) return;
  if (request.mode === 'navigate' && /^\/field(\/|$)/.test(pathname))
    event.respondWith(answerPage());
  else if (pathname.startsWith('/assets/')) event.respondWith(answerAsset(request));
});
