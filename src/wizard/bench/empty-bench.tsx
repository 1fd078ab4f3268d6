import { Marked } from '../frame/marked.tsx';
import { messages } from '../language.ts';

/** Where there is no card yet, how one goes through the bench. */
export function EmptyBench() {
  const { empty, emptyWay, emptyKeys } = messages.value.bench;
  return (
    <div class="empty">
      <p class="lead">{empty}</p>
      <ol class="empty-way">
        {emptyWay.map(({ name, does }) => (
          <li key={name}>
            <b>{name}</b> <span>{does}</span>
          </li>
        ))}
      </ol>
      <p class="about">
        <Marked text={emptyKeys} />
      </p>
    </div>
  );
}
