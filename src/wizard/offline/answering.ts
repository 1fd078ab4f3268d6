/** Who answers a request of the wizard: the files kept on this device, the server first, or the server alone. */

export type Answering =
  /** the first page, as it was built */
  | { readonly from: 'built'; readonly file: string }
  /** the server; what it last said where it does not answer */
  | { readonly from: 'server-then-shelf' }
  /** the server; cards are kept on this device by the wizard itself */
  | { readonly from: 'server' };

export interface Asked {
  readonly method: string;
  readonly url: string;
  /** a window is opened, not a file fetched */
  readonly navigates: boolean;
}

export const FIRST_PAGE = 'index.html';

/** Worked cases and the shop profile: read here, changed elsewhere or seldom. */
const SHELVED = /^api\/(shop|cases|cases\/[a-z0-9-]+)$/;

/** `scope`: the address everything of the wizard lies under, with its closing slash. */
export function answering({ method, url, navigates }: Asked, scope: string, built: ReadonlySet<string>): Answering {
  if (method !== 'GET' || !url.startsWith(scope)) return { from: 'server' };
  const [file = ''] = url.slice(scope.length).split(/[?#]/);
  if (SHELVED.test(file)) return { from: 'server-then-shelf' };
  if (file === 'api' || file.startsWith('api/')) return { from: 'server' };
  if (built.has(file)) return { from: 'built', file };
  // the server, too, gives the first page for an address without an extension
  if (navigates && !/\.[^/]*$/.test(file)) return { from: 'built', file: FIRST_PAGE };
  return { from: 'server' };
}
