import { defineConfig } from 'vite';

/** The wizard is the only thing Vite builds; the server and the command line run their TypeScript as it stands. */
export default defineConfig({
  root: 'src/wizard',
  base: './',
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  worker: { format: 'es' },
  build: { outDir: '../../dist', emptyOutDir: true, target: 'es2022', reportCompressedSize: true },
  server: { proxy: { '/api': process.env.WORTH_THE_HEAT_API ?? 'http://127.0.0.1:4173' } },
});
