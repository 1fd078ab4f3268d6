import { rulesLanguage } from '../language.ts';
import { CautionMark } from './marks.tsx';

interface Props {
  readonly cautions: readonly { readonly id: string; readonly text: string }[];
}

/** Cautions of the rules; nothing where there are none. */
export function Cautions({ cautions }: Props) {
  if (cautions.length === 0) return null;
  return (
    <ul class="cautions" lang={rulesLanguage.value}>
      {cautions.map(({ id, text }) => (
        <li key={id}>
          <CautionMark /> {text}
        </li>
      ))}
    </ul>
  );
}
