import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';
import { compressedFiles } from './src/bootstrap/compressed-files.ts';
import { firstLoad } from './src/bootstrap/first-load.ts';
import { leanParser } from './src/bootstrap/lean-parser.ts';
import { offlineFiles } from './src/bootstrap/offline-files.ts';
import { rulesFile } from './src/bootstrap/rules-file.ts';

const API = process.env.WORTH_THE_HEAT_API ?? 'http://127.0.0.1:4714';
const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const RULES = here('rules');
const SERVICE_WORKER = here('src/wizard/offline/service-worker.ts');

/** The wizard is the only thing Vite builds; the server and the command line run their TypeScript as it stands. */
export default defineConfig({
  root: 'src/wizard',
  // what a browser installs the wizard with, under names that stay
  publicDir: 'offline/installed',
  base: './',
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  plugins: [rulesFile(RULES, 'page'), offlineFiles(SERVICE_WORKER), compressedFiles(), firstLoad()],
  resolve: {
    alias: [
      { find: 'jsonpath-plus', replacement: here('src/bootstrap/no-json-path.ts') },
      { find: 'clone', replacement: here('src/bootstrap/small-clone.ts') },
      { find: 'hash-it', replacement: here('src/bootstrap/small-hash.ts') },
      { find: 'eventemitter2', replacement: here('src/bootstrap/no-listeners.ts') },
      { find: /^.*\/english-sayings\.ts$/, replacement: here('src/bootstrap/no-sayings.ts') },
    ],
  },
  worker: { format: 'es', plugins: () => [rulesFile(RULES, 'worker'), leanParser()] },
  build: { outDir: '../../dist', emptyOutDir: true, target: 'es2022', reportCompressedSize: true },
  // the server takes writes from its own address only, so the proxy speaks as it
  server: { proxy: { '/api': { target: API, changeOrigin: true, headers: { origin: API } } } },
});
