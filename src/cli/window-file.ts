/** A shop's own reflow window from a file: read as strictly as a record, everything wrong said at once, with its line. */
import { windowOfShop } from '../assess/thermal-profile.ts';
import type { ReflowWindow } from '../joints/reflow-window.ts';
import { lineOf } from '../knowledge/line-of.ts';
import { explainSchemaIssues } from '../knowledge/schema-problems.ts';
import { ShopReflowWindow } from '../knowledge/shop-reflow-window.ts';
import { BadInput } from './command.ts';
import { readJsonFile } from './reading.ts';

const WINDOW_FILE = {
  what: 'a window file',
  is: 'A window is a JSON object; its shape: worth-the-heat schemas reflow-window',
};

export async function readWindow(file: string): Promise<ReflowWindow> {
  const { text, value } = await readJsonFile(file, WINDOW_FILE);
  const parsed = ShopReflowWindow.safeParse(value);
  if (parsed.success) return windowOfShop(parsed.data);
  const problems = explainSchemaIssues(file, value, parsed.error.issues).map(
    ({ path, wrong, todo }) => `  line ${lineOf(text, path)}, ${path || 'the whole'}: ${wrong}. ${todo}`,
  );
  throw new BadInput(`${file}: this is no reflow window.\n${problems.join('\n')}\n${WINDOW_FILE.is}`);
}
