import { defineConfig } from 'vite';

const API = process.env.WORTH_THE_HEAT_API ?? 'http://127.0.0.1:4714';

/** The wizard is the only thing Vite builds; the server and the command line run their TypeScript as it stands. */
export default defineConfig({
  root: 'src/wizard',
  base: './',
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  worker: { format: 'es' },
  build: { outDir: '../../dist', emptyOutDir: true, target: 'es2022', reportCompressedSize: true },
  // the server takes writes from its own address only, so the proxy speaks as it
  server: { proxy: { '/api': { target: API, changeOrigin: true, headers: { origin: API } } } },
});
