/** Writes every built text a second time, compressed, for the server to send: that takes seconds once, not at each visit. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { brotliCompressSync } from 'node:zlib';
import type { Plugin } from 'vite';

const TEXT = /\.(js|css|html|json|svg|webmanifest)$/;

/** Must come after every plugin that writes a file. */
export function compressedFiles(): Plugin {
  return {
    name: 'compressed-files',
    apply: 'build',
    writeBundle: {
      order: 'post',
      sequential: true,
      handler({ dir }) {
        for (const entry of readdirSync(dir!, { recursive: true, withFileTypes: true })) {
          if (!entry.isFile() || !TEXT.test(entry.name)) continue;
          const path = join(entry.parentPath, entry.name);
          writeFileSync(`${path}.br`, brotliCompressSync(readFileSync(path)));
        }
      },
    },
  };
}
