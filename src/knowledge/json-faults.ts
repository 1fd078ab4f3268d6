/** Where a text stops being JSON, and keys that stand twice: what JSON.parse tells poorly or not at all. */

export interface JsonFault {
  /** index into the text */
  readonly at: number;
  /** the key that stands twice; absent where the text is no JSON from here on */
  readonly repeated?: string;
}

/**
 * The faults of a text as JSON (RFC 8259): each key that an object repeats, and where the grammar breaks, at which
 * reading stops. No faults exactly where JSON.parse accepts it and no key is lost, but for nesting beyond 500 levels, which is
 * taken for broken: nothing here nests so deep. O(length).
 */
export function jsonFaults(text: string): JsonFault[] {
  const faults: JsonFault[] = [];
  let at = 0;

  const match = (pattern: RegExp): string | undefined => {
    pattern.lastIndex = at;
    const found = pattern.exec(text)?.[0];
    if (found !== undefined) at += found.length;
    return found;
  };
  const expect = (pattern: RegExp): string => {
    match(SPACE);
    const found = match(pattern);
    if (found === undefined) throw BROKEN;
    match(SPACE);
    return found;
  };
  let depth = 0;
  const value = (): void => {
    if (depth > DEEPEST) throw BROKEN;
    depth += 1;
    const token = expect(TOKEN);
    if (token === '{') members();
    else if (token === '[') elements();
    depth -= 1;
  };
  const members = (): void => {
    const keys = new Set<string>();
    if (match(/\}/y)) return;
    do {
      const start = at;
      const key = JSON.parse(expect(STRING)) as string;
      if (keys.has(key)) faults.push({ at: start, repeated: key });
      keys.add(key);
      expect(/:/y);
      value();
    } while (expect(/[,}]/y) === ',');
  };
  const elements = (): void => {
    if (match(/\]/y)) return;
    do value();
    while (expect(/[,\]]/y) === ',');
  };

  try {
    value();
    match(SPACE);
    if (at < text.length) throw BROKEN;
  } catch (cause) {
    if (cause !== BROKEN) throw cause;
    faults.push({ at });
  }
  return faults;
}

const DEEPEST = 500;
const BROKEN = Symbol('no JSON from here on');
const SPACE = /[ \t\n\r]*/y;
// biome-ignore lint/suspicious/noControlCharactersInRegex: the grammar forbids them inside a string
const STRING = /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"/y;
const TOKEN = new RegExp(
  `[{[]|${STRING.source}|-?(?:0|[1-9][0-9]*)(?:\\.[0-9]+)?(?:[eE][+-]?[0-9]+)?|true|false|null`,
  'y',
);
