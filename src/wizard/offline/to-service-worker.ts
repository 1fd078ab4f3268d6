/** What a window says to the service worker. */
export type ToServiceWorker =
  /** the new build may take over: whoever works here has said so */
  | { readonly type: 'take-over' }
  /** fetch what will be wanted when the server is gone */
  | { readonly type: 'stock' };
