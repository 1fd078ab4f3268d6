/** Prints what a first visit loads as script, compressed as the server sends it, beside what it may. */
import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Plugin } from 'vite';

const MOST_KB = 120;

/**
 * Everything the first page runs before anybody asks for more: its scripts, and the worker that holds the rules. Must come
 * after `compressedFiles`.
 */
export function firstLoad(): Plugin {
  return {
    name: 'first-load',
    apply: 'build',
    writeBundle: {
      order: 'post',
      sequential: true,
      handler({ dir }, bundle) {
        const page = readFileSync(join(dir!, 'index.html'), 'utf8');
        const named = [...page.matchAll(/(?:src|href)="\.\/([^"]+\.js)"/g)].map(([, path]) => path!);
        const workers = Object.keys(bundle).filter((path) => /\/worker-[^/]*\.js$/.test(path));
        const sizes = [...new Set([...named, ...workers])].map((path) => ({
          path,
          kb: statSync(join(dir!, `${path}.br`)).size / 1000,
        }));
        const total = sizes.reduce((sum, { kb }) => sum + kb, 0);
        const each = sizes.map(({ path, kb }) => `${path} ${kb.toFixed(1)}`).join(' + ');
        this.info(`first load: ${total.toFixed(1)} kB of compressed script, of ${MOST_KB} at most (${each})`);
      },
    },
  };
}
