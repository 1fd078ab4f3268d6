import type { Catalogue } from '../catalogue.ts';
import { jumpTo } from '../frame/jump.ts';
import { ArrowMark } from '../frame/marks.tsx';
import { messages } from '../language.ts';
import { useSession } from '../session.ts';
import { placeOfCheck } from '../steps.ts';

interface Props {
  readonly check: string;
  readonly catalogue: Catalogue;
  readonly quiet?: boolean;
}

/** Leads to the question that takes the result of a check. */
export function RecordResult({ check, catalogue, quiet }: Props) {
  const session = useSession();
  const view = catalogue.checks.find(({ id }) => id === check);
  const target = view && session.desk.value ? placeOfCheck(view, catalogue, session.desk.value.record) : null;
  if (target === null) return null;
  return (
    <button
      type="button"
      class={quiet === true ? 'quiet' : 'main'}
      onClick={() => jumpTo(session, target.step, target.key)}
    >
      {messages.value.next.record} <ArrowMark />
    </button>
  );
}
