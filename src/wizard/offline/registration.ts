/** Keeps the wizard on this device, and knows when a newer build lies ready. Nothing is swapped until somebody says so. */
import { type ReadonlySignal, signal } from '@preact/signals';
import type { ToServiceWorker } from './to-service-worker.ts';

export type Newer =
  | { readonly kind: 'none' }
  /** lies ready; takes over when told to */
  | { readonly kind: 'ready' }
  /** another window let it take over: this one still runs the old build */
  | { readonly kind: 'took-over' };

export interface Offline {
  readonly newer: ReadonlySignal<Newer>;
  /** lets the newer build take over and loads it */
  reload(): void;
}

const LOOK_EVERY_MS = 60 * 60_000;

export function keepOnThisDevice(): Offline {
  const newer = signal<Newer>({ kind: 'none' });
  let waiting: ServiceWorker | null = null;
  let wanted = false;
  const offline: Offline = {
    newer,
    reload() {
      wanted = true;
      if (waiting === null || newer.value.kind === 'took-over') location.reload();
      else tell(waiting, { type: 'take-over' });
    },
  };
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return offline;
  const { serviceWorker } = navigator;
  // without a controller this is the first visit: what takes over then is the build this window runs
  let { controller } = serviceWorker;
  serviceWorker.addEventListener('controllerchange', () => {
    // WebKit may say so twice of the same one
    if (serviceWorker.controller === controller) return;
    if (wanted) location.reload();
    else if (controller !== null) newer.value = { kind: 'took-over' };
    ({ controller } = serviceWorker);
  });

  function ready(worker: ServiceWorker): void {
    if (serviceWorker.controller === null) return;
    waiting = worker;
    newer.value = { kind: 'ready' };
  }

  void register().catch(() => undefined);

  async function register(): Promise<void> {
    const registration = await serviceWorker.register('./service-worker.js', { updateViaCache: 'none' });
    if (registration.waiting !== null && registration.active !== null) ready(registration.waiting);
    registration.addEventListener('updatefound', () => {
      const { installing, active } = registration;
      // the first build on this device is no newer one, however late its states are told
      if (active === null) return;
      installing?.addEventListener('statechange', () => {
        if (installing.state === 'installed') ready(installing);
      });
    });
    const look = () => void registration.update().catch(() => undefined);
    setInterval(look, LOOK_EVERY_MS);
    addEventListener('online', look);
    const { active } = await serviceWorker.ready;
    if (active !== null) tell(active, { type: 'stock' });
  }

  return offline;
}

function tell(worker: ServiceWorker, message: ToServiceWorker): void {
  worker.postMessage(message);
}
