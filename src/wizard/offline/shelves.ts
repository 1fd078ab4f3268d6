/** What is kept on this device: one shelf of built files for each build, and one for what the server last said. */

export interface BuiltFile {
  readonly path: string;
  /** SHA-256 of the content, base64 */
  readonly digest: string;
}

export interface Store {
  readonly caches: Pick<CacheStorage, 'open' | 'delete' | 'keys'>;
  readonly fetch: (request: Request) => Promise<Response>;
  /** SHA-256, base64 */
  readonly digest: (content: ArrayBuffer) => Promise<string>;
  /** the address everything lies under, with its closing slash */
  readonly scope: string;
}

const BUILT = 'worth-the-heat built ';
const SAID = 'worth-the-heat said';
/** The build whose worked cases are shelved. */
const STOCKED = 'stocked-by';

const SERVER_MS = 4_000;

/** Rejects where a file is missing or is not the one that was built: a page must never run with another build's files. */
export async function stockBuilt(store: Store, build: string, files: readonly BuiltFile[]): Promise<void> {
  const shelf = await store.caches.open(BUILT + build);
  await Promise.all(
    files.map(async ({ path, digest }) => {
      const request = new Request(store.scope + path, { cache: 'no-cache' });
      const response = await store.fetch(request);
      if (!response.ok) throw new Error(`${path}: the server answers ${response.status}`);
      const content = await response.clone().arrayBuffer();
      if ((await store.digest(content)) !== digest) throw new Error(`${path} is not the file that was built`);
      await shelf.put(store.scope + path, response);
    }),
  );
}

/**
 * Keeps this build's shelf and the one before it: a window still open on that build may yet ask for a part it has not
 * loaded. All older ones go.
 */
export async function clearOlder(store: Store, build: string): Promise<void> {
  const shelves = (await store.caches.keys()).filter((name) => name.startsWith(BUILT));
  const others = shelves.filter((name) => name !== BUILT + build);
  await Promise.all(others.slice(0, -1).map((name) => store.caches.delete(name)));
}

export async function fromBuilt(store: Store, build: string, file: string): Promise<Response | null> {
  const address = store.scope + file;
  const newestFirst = (await store.caches.keys()).filter((name) => name.startsWith(BUILT)).reverse();
  for (const name of [BUILT + build, ...newestFirst]) {
    const held = await (await store.caches.open(name)).match(address);
    if (held !== undefined) return held;
  }
  return null;
}

/** What the server says, and where it is gone or slow to answer what it last said. */
export async function serverThenShelf(store: Store, request: Request): Promise<Response> {
  const shelf = await store.caches.open(SAID);
  try {
    const response = await store.fetch(new Request(request, { signal: AbortSignal.timeout(SERVER_MS) }));
    if (response.ok) await shelf.put(request.url, response.clone());
    return response;
  } catch (gone) {
    const held = await shelf.match(request.url);
    if (held === undefined) throw gone;
    return held;
  }
}

/** Fetches the shop profile and every worked case once for each build, so that they can be opened without the server. */
export async function stockSaid(store: Store, build: string): Promise<void> {
  const shelf = await store.caches.open(SAID);
  const stocked = await shelf.match(store.scope + STOCKED);
  if (stocked !== undefined && (await stocked.text()) === build) return;
  const ask = (path: string) => serverThenShelf(store, new Request(store.scope + path));
  await ask('api/shop');
  const ids = idsIn(await (await ask('api/cases')).json());
  const answers = await Promise.all(ids.map((id) => ask(`api/cases/${id}`)));
  if (answers.every(({ ok }) => ok)) await shelf.put(store.scope + STOCKED, new Response(build));
}

function idsIn(body: unknown): readonly string[] {
  const cases = typeof body === 'object' && body !== null && 'cases' in body ? body.cases : [];
  return (Array.isArray(cases) ? cases : []).flatMap(({ id }) => (typeof id === 'string' ? [id] : []));
}
