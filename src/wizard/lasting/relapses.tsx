import type { Messages } from '../../lasting/messages/messages.ts';
import type { RelapseTold } from '../../lasting/told.ts';
import { rulesLanguage } from '../language.ts';

interface Props {
  readonly told: readonly RelapseTold[];
  readonly messages: Messages;
}

/** What the records teach of the time until a fault that heat masked comes back. */
export function Relapses({ told, messages }: Props) {
  const { relapse: words } = messages;
  return (
    <section class="repair">
      <h2>{words.heading}</h2>
      <p class="about">{told.length === 0 ? words.none : words.about}</p>
      {told.map(({ key, fault, after, book, learnt, seen, few }) => (
        <div class="repair-relapse" key={key}>
          <h3>
            <span lang={rulesLanguage.value}>{fault}</span>
            {after !== null && <small> {after}</small>}
          </h3>
          <dl>
            <div>
              <dt>{words.book}</dt>
              <dd>{book}</dd>
            </div>
            <div>
              <dt>{words.learnt}</dt>
              <dd>{learnt}</dd>
            </div>
            <div>
              <dt>{words.seen}</dt>
              <dd>
                {seen}
                {few && <small> {words.few}</small>}
              </dd>
            </div>
          </dl>
        </div>
      ))}
    </section>
  );
}
