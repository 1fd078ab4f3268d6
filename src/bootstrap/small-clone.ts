/**
 * Stands in the wizard for the cloning library under json-rules-engine, which also clones buffers, promises and cycles. A
 * rule's conditions are plain data in objects of the engine's own classes.
 */
export default function clone<Value>(value: Value): Value {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map(clone) as Value;
  const copy = Object.create(Object.getPrototypeOf(value));
  for (const [key, inner] of Object.entries(value)) copy[key] = clone(inner);
  return copy;
}
