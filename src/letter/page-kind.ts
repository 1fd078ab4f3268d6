/** What the page is: an offer, or the answer to why a repair failed. */
import type { Messages } from './messages/messages.ts';
import type { AfterWork, Letter } from './schema.ts';

export function kindOf({ ownStock, afterWork }: Letter, { page }: Messages): string {
  if (ownStock) return page.kindOwnStock;
  if (!afterWork?.failed) return page.kind;
  return afterWork.cameBack ? page.kindAgain : page.kindFailed;
}

export function afterWorkHeading({ afterWork }: Letter, { headings }: Messages): string {
  if (!afterWork?.failed) return headings.afterWork;
  return afterWork.cameBack ? headings.whyAgain : headings.whyFailed;
}

/** What stands before the work: when it was done, where that is known. */
export function afterWorkLead({ on }: AfterWork, { afterWork }: Messages): string {
  return on === null ? afterWork.done : afterWork.doneOn(on.text);
}
