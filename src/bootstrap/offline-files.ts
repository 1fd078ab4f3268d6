/** Tells the service worker which files were built, each with the digest of its content. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import type { Plugin } from 'vite';

const SERVICE_WORKER = 'service-worker.js';
/** The service worker itself, what the build notes for itself, source maps, and what is only how a file is sent. */
const LEFT_OUT = /^service-worker\.js$|^\.|\.map$|\.br$/;

/** `source`: the service worker's own file. It is built on its own, with nothing imported, so that every browser can run it. */
export function offlineFiles(source: string): Plugin {
  return {
    name: 'offline-files',
    apply: 'build',
    buildStart() {
      this.emitFile({ type: 'chunk', id: source, fileName: SERVICE_WORKER });
    },
    generateBundle(_options, bundle) {
      const chunk = bundle[SERVICE_WORKER];
      if (chunk?.type !== 'chunk') this.error('The service worker was not built.');
      if (chunk.imports.length > 0)
        this.error(`The service worker shares ${chunk.imports.join(', ')} with the wizard: give it code of its own.`);
    },
    // the files that are copied as they are can only be read where they were written
    writeBundle({ dir }) {
      const files = filesBelow(dir!)
        .filter((path) => !LEFT_OUT.test(path))
        .map((path) => ({ path, digest: digestOf(readFileSync(join(dir!, path))) }));
      const build = digestOf(Buffer.from(JSON.stringify(files)));
      const script = join(dir!, SERVICE_WORKER);
      const told = `self.BUILT_FILES=${JSON.stringify(files)};self.BUILD=${JSON.stringify(build)};\n`;
      writeFileSync(script, told + readFileSync(script, 'utf8'));
    },
  };
}

function filesBelow(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .sort();
}

const digestOf = (content: Buffer): string => createHash('sha256').update(content).digest('base64');
