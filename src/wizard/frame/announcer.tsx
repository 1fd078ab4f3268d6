import { useEffect, useState } from 'preact/hooks';
import { messages } from '../language.ts';
import { useSession } from '../session.ts';
import { sayPercent } from '../words.ts';

const SETTLE_MS = 900;

/** Tells a screen reader when the verdict or the first cause changes, once the answers have settled. */
export function Announcer() {
  const { adviser } = useSession();
  const [said, setSaid] = useState('');
  const { assessment, pending } = adviser.advice.value;
  const words = assessment === null || pending ? null : wordsFor(assessment);
  useEffect(() => {
    if (words === null) return;
    const timer = setTimeout(() => setSaid(words), SETTLE_MS);
    return () => clearTimeout(timer);
  }, [words]);
  return (
    <div class="visually-hidden" role="status" aria-live="polite">
      {said}
    </div>
  );
}

type Shown = NonNullable<ReturnType<typeof useSession>['adviser']['advice']['value']['assessment']>;

function wordsFor(assessment: Shown): string {
  const { notices, announcer } = messages.value;
  switch (assessment.kind) {
    case 'contradiction':
      return notices.seeWhere(notices.contradiction);
    case 'bad-record':
      return notices.seeWhere(notices.unreadableLabel);
    case 'assessed': {
      const [first] = assessment.ranking;
      const cause = first === undefined ? '' : announcer.likeliest(first.name, sayPercent(first.chance));
      return `${announcer.verdictSoFar(assessment.verdict.name)} ${cause}`.trim();
    }
  }
}
