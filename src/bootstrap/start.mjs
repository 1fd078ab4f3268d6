// `npm start`: install what is missing, build what is stale, serve the wizard on loopback.
import { join } from 'node:path';
import { ensureBuilt } from './build.mjs';
import { ensureInstalled, PINNED_NODE, ROOT, run } from './install.mjs';

ensureInstalled();
const built = ensureBuilt();
if (built !== 0) process.exit(2);
process.exit(run(PINNED_NODE, [join(ROOT, 'src', 'cli', 'main.ts'), 'serve', '--open', ...process.argv.slice(2)]));
