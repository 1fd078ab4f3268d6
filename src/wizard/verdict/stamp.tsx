import type { Assessed, VerdictKind } from '../../assessment.ts';
import { sayStamp } from '../words.ts';

/** As long as a check is worth its minutes, the verdict is only what one would do if one had to decide now. */
export const isFirm = ({ next }: Assessed): boolean => next.kind === 'act';

export const toneOf = (kind: VerdictKind): 'stop' | 'return' | 'go' =>
  kind === 'scrap' ? 'stop' : kind === 'return' ? 'return' : 'go';

/** The verdict as it would be stamped on the job ticket; in pencil while it is not firm. */
export function Stamp({ assessed }: { readonly assessed: Assessed }) {
  const { kind, justified } = assessed.verdict;
  const tone = justified ? toneOf(kind) : kind === 'return' ? 'return' : 'stop';
  return (
    <span class="stamp" data-tone={isFirm(assessed) ? tone : 'pencil'}>
      {sayStamp(kind)}
    </span>
  );
}

/** A verdict that is, or would be, one's own. */
export function StampOf({ verdict }: { readonly verdict: VerdictKind }) {
  return (
    <span class="stamp" data-tone={toneOf(verdict)}>
      {sayStamp(verdict)}
    </span>
  );
}
