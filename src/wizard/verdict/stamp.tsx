import type { VerdictKind } from '../../assessment.ts';
import { sayStamp } from '../words.ts';

interface Props {
  readonly kind: VerdictKind;
  readonly justified: boolean;
}

/** The verdict as it would be stamped on the job ticket. */
export function Stamp({ kind, justified }: Props) {
  const tone = kind === 'scrap' ? 'stop' : kind === 'return' ? 'return' : justified ? 'go' : 'stop';
  return (
    <span class="stamp" data-tone={tone}>
      {sayStamp(kind)}
    </span>
  );
}
