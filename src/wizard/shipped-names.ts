/** Names of the shop profile as they are shown: what is shipped with it in the language of the interface, the shop's own as written. */
import { messages } from './language.ts';
import { shippedEn } from './messages/shipped-en.ts';

type Shipped = keyof typeof shippedEn;

const BY_NAME: ReadonlyMap<string, Shipped> = new Map(
  (Object.keys(shippedEn) as Shipped[]).map((id) => [shippedEn[id], id]),
);

export function sayShopsName(name: string): string {
  const id = BY_NAME.get(name);
  return id === undefined ? name : messages.value.shipped[id];
}
