import { messages } from '../language.ts';

/** An arrow and by how much; the words for a screen reader. */
export function Moved({ points }: { readonly points: number }) {
  if (points === 0) return null;
  const { pointing } = messages.value;
  const size = Math.abs(points);
  return (
    <span class="moved" data-way={points > 0 ? 'up' : 'down'} key={points}>
      <svg class="moved-arrow" viewBox="0 0 10 10" aria-hidden="true">
        <path d="M5 1 9 6H6.4v3H3.6V6H1z" />
      </svg>
      <span aria-hidden="true">{size}</span>
      <span class="visually-hidden">{points > 0 ? pointing.up(size) : pointing.down(size)}</span>
    </span>
  );
}
