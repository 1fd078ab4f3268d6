/** Answers for the server when it is gone. The build writes `BUILT_FILES` and `BUILD` before the first line. */
import { answering } from './answering.ts';
import {
  type BuiltFile,
  clearOlder,
  fromBuilt,
  type Store,
  serverThenShelf,
  stockBuilt,
  stockSaid,
} from './shelves.ts';
import type { ToServiceWorker } from './to-service-worker.ts';

declare const self: ServiceWorkerGlobalScope & {
  readonly BUILT_FILES: readonly BuiltFile[];
  readonly BUILD: string;
};

const { BUILT_FILES, BUILD } = self;
const built = new Set(BUILT_FILES.map(({ path }) => path));
const store: Store = {
  caches: self.caches,
  fetch: (request) => self.fetch(request),
  digest: async (content) => base64(await self.crypto.subtle.digest('SHA-256', content)),
  scope: self.registration.scope,
};

self.addEventListener('install', (event) => {
  event.waitUntil(stockBuilt(store, BUILD, BUILT_FILES));
});

self.addEventListener('activate', (event) => {
  event.waitUntil(clearOlder(store, BUILD).then(() => self.clients.claim()));
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const { method, url, mode } = request;
  const answer = answering({ method, url, navigates: mode === 'navigate' }, store.scope, built);
  if (answer.from === 'built') event.respondWith(kept(answer.file, request));
  else if (answer.from === 'server-then-shelf') event.respondWith(serverThenShelf(store, request));
});

self.addEventListener('message', (event) => {
  const { type } = event.data as ToServiceWorker;
  if (type === 'take-over') void self.skipWaiting();
  // the server may be gone just then: the next start tries again
  else event.waitUntil(stockSaid(store, BUILD).catch(() => undefined));
});

async function kept(file: string, request: Request): Promise<Response> {
  return (await fromBuilt(store, BUILD, file)) ?? self.fetch(request);
}

function base64(content: ArrayBuffer): string {
  return btoa(String.fromCharCode(...new Uint8Array(content)));
}
