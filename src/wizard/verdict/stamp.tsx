import type { Assessed } from '../../assessment.ts';
import { sayStamp } from '../words.ts';

/** As long as a check is worth its minutes, the verdict is only what one would do if one had to decide now. */
export const isFirm = ({ next }: Assessed): boolean => next.kind === 'act';

/** The verdict as it would be stamped on the job ticket; in pencil while it is not firm. */
export function Stamp({ assessed }: { readonly assessed: Assessed }) {
  const { kind, justified } = assessed.verdict;
  const tone = kind === 'scrap' ? 'stop' : kind === 'return' ? 'return' : justified ? 'go' : 'stop';
  return (
    <span class="stamp" data-tone={isFirm(assessed) ? tone : 'pencil'}>
      {sayStamp(kind)}
    </span>
  );
}
