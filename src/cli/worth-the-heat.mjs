#!/usr/bin/env node
// The command's doorway: any Node from 20 on; installs what is missing, then hands over to the pinned Node.
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureInstalled, PINNED_NODE, run } from '../bootstrap/install.mjs';

ensureInstalled();
const main = join(dirname(fileURLToPath(import.meta.url)), 'main.ts');
process.exit(run(PINNED_NODE, [main, ...process.argv.slice(2)], { cwd: process.cwd() }));
