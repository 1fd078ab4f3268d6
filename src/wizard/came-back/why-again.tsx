import type { Assessed } from '../../assessment.ts';
import { ChanceBar } from '../card/chance-bar.tsx';
import { InFigures } from '../charts/in-figures.tsx';
import { rulesLanguage } from '../language.ts';
import { sayFrequency, sayPercent } from '../words.ts';
import { cameBackWords } from './words.ts';

type Comeback = NonNullable<Assessed['comeback']>;
type Explanation = keyof NonNullable<Comeback['attributions']>;

/** From this share on it is worth saying that nothing may be wrong at the moment. */
const NOTHING_SHOWN = 0.02;

/** The five explanations, likeliest first. */
export function WhyAgain({ comeback }: { readonly comeback: Comeback }) {
  const { why: words } = cameBackWords.value;
  const { attributions, nothingActive } = comeback;
  if (attributions === null) {
    return (
      <section class="why-again">
        <h2>{words.heading}</h2>
        <p>{words.works}</p>
      </section>
    );
  }
  const ranked = (Object.entries(attributions) as [Explanation, number][]).toSorted((a, b) => b[1] - a[1]);
  return (
    <section class="why-again">
      <h2>{words.heading}</h2>
      <ol class="explanations">
        {ranked.map(([kind, chance]) => (
          <li key={kind} data-kind={kind}>
            <b>{sayFrequency(chance)}</b>
            <span>{words.explanations[kind]}</span>
            <ChanceBar chance={chance} before={null} />
          </li>
        ))}
      </ol>
      <p class="about">
        {words.sum}
        {nothingActive >= NOTHING_SHOWN && <> {words.nothingActive(sayFrequency(nothingActive))}</>}
      </p>
      <InFigures
        title={words.inFigures}
        columns={[{ name: words.explanation }, { name: words.chance, number: true }]}
        rows={ranked.map(([kind, chance]) => [words.explanations[kind], sayPercent(chance)])}
      />
    </section>
  );
}

/** Chances that both stay below this are left out. */
const LEAST_SHOWN = 0.02;
const SHOWN = 5;

/** The first diagnosis as it was made, and as it looks with everything that has happened since. */
export function FirstDiagnosis({ comeback }: { readonly comeback: Comeback }) {
  const { first: words } = cameBackWords.value;
  const shown = comeback.firstDiagnosis
    .filter(({ onArrival, restated }) => Math.max(onArrival, restated) >= LEAST_SHOWN)
    .slice(0, SHOWN);
  return (
    <section class="first-diagnosis">
      <h2>{words.heading}</h2>
      <p class="about">{words.about}</p>
      <table aria-label={words.heading}>
        <thead>
          <tr>
            <th scope="col">{words.fault}</th>
            <th scope="col">{words.onArrival}</th>
            <th scope="col">{words.restated}</th>
          </tr>
        </thead>
        <tbody>
          {shown.map(({ fault, name, onArrival, restated }) => (
            <tr key={fault}>
              <th scope="row" lang={rulesLanguage.value}>
                {name}
              </th>
              <td>
                {sayPercent(onArrival)} <ChanceBar chance={onArrival} before={null} />
              </td>
              <td>
                {sayPercent(restated)} <ChanceBar chance={restated} before={onArrival} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
