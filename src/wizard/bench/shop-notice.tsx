import { CautionMark } from '../frame/marks.tsx';
import { messages } from '../language.ts';
import { useSession } from '../session.ts';
import { sayShopIssue } from '../shop-answer.ts';

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
      <ul>
        {shopProblem.issues.map((issue) => {
          const { wrong, todo, lang } = sayShopIssue(issue);
          return (
            <li key={`${issue.place} ${issue.wrong}`}>
              <code>{issue.place}</code>{' '}
              <span lang={lang}>
                <strong>{wrong}</strong> {todo}
              </span>
            </li>
          );
        })}
      </ul>
      <button type="button" onClick={() => location.reload()}>
        {shop.readAgain}
      </button>
    </section>
  );
}
