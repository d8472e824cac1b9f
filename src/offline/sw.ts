/** The offline worker. It keeps one revision of the whole site and answers from it. A newer revision is fetched
 * beside it and waits until the person accepts; the one before is kept for pages that are still open.
 *
 * Only types are taken out of this file at build, so it imports nothing. The two values below are filled in then. */
const revision: string = 'REVISION';
/** Addresses below the scope (a folder stands for its index) and a hash of each. */
const files: [string, string][] = [] /* FILES */;

interface Extendable extends Event {
  waitUntil(promise: Promise<unknown>): void;
}
interface Fetching extends Extendable {
  request: Request;
  respondWith(answer: Promise<Response>): void;
}
interface Client {
  postMessage(message: unknown): void;
}
interface WorkerScope {
  location: Location;
  clients: { claim(): Promise<void>; matchAll(options: object): Promise<Client[]> };
  skipWaiting(): Promise<void>;
  addEventListener(type: 'install' | 'activate', listen: (event: Extendable) => void): void;
  addEventListener(type: 'fetch', listen: (event: Fetching) => void): void;
  addEventListener(type: 'message', listen: (event: MessageEvent) => void): void;
}

const worker: WorkerScope = Object(globalThis);
const scope = new URL('./', worker.location.href).href;
const cacheName = (of: string): string => `datestone ${scope} ${of}`;
const own = cacheName(revision);
const ours = async (): Promise<string[]> =>
  (await caches.keys()).filter((key) => key.startsWith(cacheName('')));
const address = (path: string): string => new URL(path, scope).href;
const MANIFEST = address('offline.json');
/** Fetches at a time. */
const HANDS = 6;

worker.addEventListener('install', (event) => event.waitUntil(save()));

worker.addEventListener('activate', (event) => event.waitUntil(takeOver()));

worker.addEventListener('message', (event) => {
  if (event.data === 'accept') void worker.skipWaiting();
});

worker.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method === 'GET' && request.url.startsWith(scope)) event.respondWith(answer(request));
});

/** All or nothing: one file that can't be had fails the revision, and the one before stays. */
async function save(): Promise<void> {
  const cache = await caches.open(own);
  const before = await earlier();
  const left = [...files];
  let done = 0;
  const hand = async (): Promise<void> => {
    for (let next = left.pop(); next !== undefined; next = left.pop()) {
      const [path, hash] = next;
      const url = address(path);
      const had = before?.hashes.get(path) === hash ? await before.cache.match(url) : undefined;
      const response = had ?? (await fetch(url, { cache: 'reload' }));
      if (!response.ok) throw new Error(`${path}: ${response.status}`);
      await cache.put(url, response);
      done += 1;
      if (done % 20 === 0) await tell({ saving: done, of: files.length });
    }
  };
  try {
    await Promise.all(Array.from({ length: HANDS }, hand));
  } catch (error) {
    await caches.delete(own);
    throw error;
  }
  const manifest = { revision, saved: new Date().toISOString(), files };
  await cache.put(
    MANIFEST,
    new Response(JSON.stringify(manifest), { headers: { 'content-type': 'application/json' } }),
  );
}

/** The newest revision on this device other than this one, to take unchanged files from. */
async function earlier(): Promise<{ cache: Cache; hashes: Map<string, string> } | null> {
  for (const key of (await ours()).reverse()) {
    if (key === own) continue;
    const cache = await caches.open(key);
    const manifest = await cache.match(MANIFEST);
    if (manifest === undefined) continue;
    const { files: kept }: { files: [string, string][] } = await manifest.json();
    return { cache, hashes: new Map(kept) };
  }
  return null;
}

/** Keeps the revision before this one: a page of it may still be open. */
async function takeOver(): Promise<void> {
  const others = (await ours()).filter((key) => key !== own);
  await Promise.all(others.slice(0, -1).map((key) => caches.delete(key)));
  await worker.clients.claim();
}

async function answer(request: Request): Promise<Response> {
  const url = new URL(request.url);
  const plain = url.origin + url.pathname;
  const cache = await caches.open(own);
  const kept = (await cache.match(plain)) ?? (await elsewhere(plain));
  if (kept !== undefined) return kept;
  const folder = `${plain}/`;
  if ((await cache.match(folder)) !== undefined) return Response.redirect(folder + url.search, 301);
  try {
    return await fetch(request);
  } catch (error) {
    const missing = request.mode === 'navigate' ? await cache.match(address('404.html')) : undefined;
    if (missing === undefined) throw error;
    return new Response(missing.body, { status: 404, headers: missing.headers });
  }
}

/** A page of the revision before asks for its own scripts, which this one no longer has. */
async function elsewhere(url: string): Promise<Response | undefined> {
  return url.startsWith(address('_astro/')) ? caches.match(url) : undefined;
}

async function tell(message: { saving: number; of: number }): Promise<void> {
  for (const client of await worker.clients.matchAll({ includeUncontrolled: true }))
    client.postMessage(message);
}
