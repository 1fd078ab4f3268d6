import type { Catalogue } from '../catalogue.ts';
import { HOW_TO_KEY } from '../frame/how-to-key.ts';
import { CautionMark } from '../frame/marks.tsx';
import { messages, rulesLanguage } from '../language.ts';

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
      <summary aria-keyshortcuts="h">
        {summary ?? messages.value.howTo.safely}
        <span class="key" aria-hidden="true">
          {HOW_TO_KEY}
        </span>
      </summary>
      {cautions.length > 0 && (
        <ul class="cautions" lang={rulesLanguage.value}>
          {cautions.map((caution) => (
            <li key={caution.id}>
              <CautionMark /> {caution.text}
            </li>
          ))}
        </ul>
      )}
      <ol class="how-to-steps" lang={rulesLanguage.value}>
        {of.howTo.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
    </details>
  );
}
