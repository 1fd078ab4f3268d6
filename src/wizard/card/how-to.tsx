import type { Catalogue } from '../catalogue.ts';
import { Cautions } from '../frame/cautions.tsx';
import { HOW_TO_KEY } from '../frame/how-to-key.ts';
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
      <Cautions cautions={cautions} />
      <ol class="how-to-steps" lang={rulesLanguage.value}>
        {of.howTo.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
    </details>
  );
}
