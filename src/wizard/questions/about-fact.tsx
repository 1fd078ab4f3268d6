import type { FactDefinition } from '../../knowledge/schema.ts';
import { messages, rulesLanguage } from '../language.ts';
import { useSession } from '../session.ts';
import { sayList } from '../words.ts';

/** The few it moves most say enough. */
const FAULTS_NAMED = 2;

/** How the fact is found out, and what it is asked for. */
export function AboutFact({ fact }: { readonly fact: FactDefinition }) {
  const { adviser } = useSession();
  const use = adviser.catalogue.value?.factUses[fact.id];
  const { uses } = messages.value.questions;
  const named = use?.faults.slice(0, FAULTS_NAMED) ?? [];
  const more = (use?.faults.length ?? 0) - named.length;
  const purposes = [
    ...(use?.readings ? [uses.readings] : []),
    ...(use?.safety ? [uses.safety] : []),
    ...(use?.symptoms ? [uses.symptoms] : []),
  ];
  return (
    <>
      {fact.about && <span lang={rulesLanguage.value}>{fact.about} </span>}
      {use !== undefined && (named.length > 0 || purposes.length > 0) && (
        <span class="used-for">
          {uses.label}{' '}
          {named.length > 0 && (
            <>
              <span lang={rulesLanguage.value}>{named.join(', ')}</span>
              {more > 0 && ` ${uses.more(more)}`}
              {purposes.length > 0 && '; '}
            </>
          )}
          {sayList(purposes)}
          {purposes.length > 0 || named.length > 0 ? '.' : ''}
        </span>
      )}
    </>
  );
}
