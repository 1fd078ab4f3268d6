/** What became of the last work on the card, and why it failed if it did. */
import type { Assessed } from '../assessment.ts';
import type { Messages } from './messages/messages.ts';
import type { OwnerWordings } from './owner-wordings.ts';
import type { Say } from './say.ts';
import type { AfterWork } from './schema.ts';

/** A reason less likely than this is not worth a line. */
const LEAST_CHANCE_SHOWN = 0.05;

export function afterWorkOf(
  { comeback, verdict, warrantyDays, ownStock }: Assessed,
  words: OwnerWordings,
  messages: Messages,
  say: Say,
): AfterWork | null {
  if (!comeback) return null;
  const { afterWork, days } = messages;
  const { workedDays, cameBack, attributions } = comeback;
  const sentences: string[] = [];
  if (cameBack && workedDays !== null) {
    const whole = Math.floor(workedDays);
    sentences.push(afterWork.failedAgain(whole, say.number(whole)));
    // where the card is sound, it was not the repair that failed
    if (verdict.kind !== 'return' && !ownStock && warrantyDays > 0)
      sentences.push((workedDays <= warrantyDays ? afterWork.warranty : afterWork.afterWarranty)(days(warrantyDays)));
  } else if (cameBack) sentences.push(afterWork.failedAgainUnknown);
  else sentences.push(attributions ? afterWork.neverWorked : afterWork.works);
  const reasons = Object.entries(attributions ?? {}) as [AfterWork['reasons'][number]['kind'], number][];
  return {
    remedy: comeback.lastRemedy,
    what: { text: words.remedies[comeback.lastRemedy] ?? comeback.lastRemedyName, language: words.language },
    sentences,
    reasons: reasons
      .filter(([, chance]) => chance >= LEAST_CHANCE_SHOWN)
      .sort((a, b) => b[1] - a[1])
      .map(([kind, chance]) => {
        const count = say.count(chance);
        return { kind, count, sentence: afterWork.reasons[kind](count.text) };
      }),
  };
}
