import { CautionMark } from '../frame/marks.tsx';
import { messages } from '../language.ts';
import { useSession } from '../session.ts';

/** Every figure in money rests on the shop profile, so one that cannot be read is said wherever figures are shown. */
export function ShopNotice() {
  const { shopProblem } = useSession();
  const { shop } = messages.value;
  if (shopProblem === null) return null;
  return (
    <section class="notice shop-notice" aria-label={shop.broken}>
      <h2>
        <CautionMark /> {shop.broken}
      </h2>
      <p>{shop.brokenAbout}</p>
      <ul lang="en">
        {shopProblem.issues.map(({ place, wrong, todo }) => (
          <li key={`${place} ${wrong}`}>
            <code>{place}</code> <strong>{wrong}</strong> {todo}
          </li>
        ))}
      </ul>
      <button type="button" onClick={() => location.reload()}>
        {shop.readAgain}
      </button>
    </section>
  );
}
