/** Cautions of a work that do not belong to the hold point that waits: one touch away, so that those that do are read. */
import { Cautions } from '../frame/cautions.tsx';
import { CautionMark } from '../frame/marks.tsx';

interface Props {
  readonly name: string;
  readonly cautions: readonly { readonly id: string; readonly text: string }[];
}

export function FoldedCautions({ name, cautions }: Props) {
  if (cautions.length === 0) return null;
  return (
    <details class="folded-cautions">
      <summary>
        <CautionMark /> {name}
      </summary>
      <Cautions cautions={cautions} />
    </details>
  );
}
