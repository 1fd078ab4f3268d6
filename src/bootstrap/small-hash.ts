/**
 * Stands in the wizard for the hashing library under json-rules-engine, which keys a fact's value by its name and parameters:
 * names and plain data, which are a key as they stand.
 */
export default function hash(value: unknown): string {
  return JSON.stringify(value);
}
