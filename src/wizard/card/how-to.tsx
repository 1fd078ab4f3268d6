import type { Catalogue } from '../catalogue.ts';
import { CautionMark } from '../frame/marks.tsx';
import { messages } from '../language.ts';

interface Props {
  readonly of: { readonly howTo: readonly string[]; readonly cautions: readonly string[] };
  readonly catalogue: Catalogue;
  readonly summary?: string;
}

/** The steps of a procedure, its cautions first. */
export function HowTo({ of, catalogue, summary }: Props) {
  const cautions = of.cautions
    .map((id) => catalogue.cautions.find((caution) => caution.id === id))
    .filter((caution) => caution !== undefined);
  return (
    <details class="how-to">
      <summary>{summary ?? messages.value.howTo.safely}</summary>
      {cautions.length > 0 && (
        <ul class="cautions" lang="en">
          {cautions.map((caution) => (
            <li key={caution.id}>
              <CautionMark /> {caution.text}
            </li>
          ))}
        </ul>
      )}
      <ol class="how-to-steps" lang="en">
        {of.howTo.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
    </details>
  );
}
