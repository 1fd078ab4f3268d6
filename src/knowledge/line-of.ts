/** Where in a JSON text a value stands, for whoever has to correct it in an editor. */

/**
 * The line, from 1, on which the value at `path` begins (`parts.core-donor.low`, `equipment[2]`); of a path that is not there, the
 * line of what would hold it. The text must be JSON.
 */
export function lineOf(text: string, path: string): number {
  const wanted = path === '' ? [] : path.replace(/\[(\d+)\]/g, '.$1').split('.');
  let best = { depth: 0, at: 0 };
  let at = 0;

  const skip = () => {
    while (/\s/.test(text[at] ?? '')) at += 1;
  };
  const readString = (): string => {
    const start = at;
    at += 1;
    while (text[at] !== '"') at += text[at] === '\\' ? 2 : 1;
    at += 1;
    return JSON.parse(text.slice(start, at)) as string;
  };
  /** `depth`: how much of the wanted path led here; -1: it lies elsewhere */
  const readValue = (depth: number): void => {
    skip();
    if (depth > best.depth) best = { depth, at };
    if (text[at] === '{') readMembers('}', depth);
    else if (text[at] === '[') readMembers(']', depth);
    else if (text[at] === '"') readString();
    else while (at < text.length && !/[\s,\]}]/.test(text[at]!)) at += 1;
  };
  const readMembers = (end: string, depth: number): void => {
    at += 1;
    for (let index = 0; ; index += 1) {
      skip();
      if (at >= text.length || text[at] === end) break;
      let key = String(index);
      if (end === '}') {
        key = readString();
        skip();
        at += 1;
      }
      readValue(depth >= 0 && wanted[depth] === key ? depth + 1 : -1);
      skip();
      if (text[at] === ',') at += 1;
    }
    at += 1;
  };

  readValue(0);
  return text.slice(0, best.at).split('\n').length;
}
