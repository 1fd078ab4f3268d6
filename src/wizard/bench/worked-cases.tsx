import { useEffect, useState } from 'preact/hooks';
import { writePlace } from '../address.ts';
import { messages } from '../language.ts';
import { type CaseListed, useSession } from '../session.ts';

const SHOWN = 8;

/** Invented cards to learn from. Opening one changes nothing; the first answer makes it a card of one's own. */
/** `first`: the bench is empty, so some are laid out at once; else they wait behind their button. */
export function WorkedCases({ first }: { readonly first: boolean }) {
  const { listCases } = useSession();
  const words = messages.value.cases;
  const [cases, setCases] = useState<readonly CaseListed[]>([]);
  const [all, setAll] = useState(false);
  const shown = all ? cases : cases.slice(0, first ? SHOWN : 0);
  useEffect(() => {
    void listCases().then(setCases);
  }, [listCases]);
  if (cases.length === 0) return null;
  return (
    <section class="worked">
      <h2>{words.heading}</h2>
      <p class="about">{words.about}</p>
      <ul>
        {shown.map(({ id, title, why }) => (
          <li key={id}>
            <a href={writePlace({ screen: 'case', id, step: 'verdict' })}>{title}</a>
            {why && <span>{why}</span>}
          </li>
        ))}
      </ul>
      {shown.length < cases.length && (
        <button type="button" onClick={() => setAll(true)}>
          {words.showAll(cases.length)}
        </button>
      )}
    </section>
  );
}
