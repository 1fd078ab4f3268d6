import type { Assessed } from '../../assessment.ts';
import { jumpTo } from '../frame/jump.ts';
import { ArrowMark } from '../frame/marks.tsx';
import { rulesLanguage } from '../language.ts';
import { useSession } from '../session.ts';
import { advisedWork } from './under-way.ts';
import { workWords } from './words.ts';

/** From the verdict to the bench. */
export function ToWork({ assessed }: { readonly assessed: Assessed }) {
  const session = useSession();
  const words = workWords.value;
  const advised = advisedWork(assessed);
  return (
    <p class="to-work">
      <button
        type="button"
        class={advised === null ? 'quiet' : undefined}
        lang={advised === null ? undefined : rulesLanguage.value}
        onClick={() => jumpTo(session, 'work')}
      >
        {advised === null ? words.otherWork : words.toWork(advised.name)} <ArrowMark />
      </button>
    </p>
  );
}
