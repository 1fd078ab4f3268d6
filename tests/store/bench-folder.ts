/** A data folder of its own for each test, gone afterwards, and a record to put into it. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { onTestFinished } from 'vitest';
import type { Record } from '../../src/record/schema.ts';
import { openStore } from '../../src/store/sqlite-store.ts';
import type { Store } from '../../src/store/store.ts';

export const SHOP_TEMPLATE = fileURLToPath(new URL('../../rules/shop.json', import.meta.url));

export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'worth-the-heat-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** A store whose clock moves a second with every change. Every one opened on it is closed when the test ends, if the test has not done so. */
export function openBench(folder: string, at = '2026-01-01T10:00:00Z'): Store {
  let clock = Date.parse(at);
  const now = () => {
    clock += 1000;
    return new Date(clock);
  };
  const store = openStore({ folder, shopTemplate: SHOP_TEMPLATE, now });
  let open = true;
  const close = () => {
    if (open) store.close();
    open = false;
  };
  onTestFinished(close);
  return { ...store, close };
}

export const card = (id: string, title = 'A card that shows no image'): Record => ({
  format: 1,
  id,
  title,
  invented: true,
  timeline: [{ type: 'arrived', at: '2026-01-01T09:00:00Z', facts: { 'die-size': 'large', mined: null } }],
});
