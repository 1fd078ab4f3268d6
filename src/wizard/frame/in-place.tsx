/** What is shown where a verdict would be when there is none: a contradiction, a record that cannot be read, a broken worker. */
import type { Assessment } from '../../assessment.ts';
import type { Catalogue, FindingView } from '../catalogue.ts';
import { findingOfIssue } from '../issues.ts';
import { useSession } from '../session.ts';
import { findingKey, stepOf } from '../steps.ts';
import { jumpTo } from './jump.ts';
import { CautionMark } from './marks.tsx';

type Contradiction = Extract<Assessment, { kind: 'contradiction' }>;
type BadRecord = Extract<Assessment, { kind: 'bad-record' }>;

export function ContradictionNotice({
  contradiction,
  catalogue,
}: {
  contradiction: Contradiction;
  catalogue: Catalogue;
}) {
  const session = useSession();
  const involved = [contradiction.finding, ...contradiction.against]
    .map((id) => catalogue.findings.find((finding) => finding.id === id))
    .filter((finding) => finding !== undefined);
  return (
    <section class="notice" aria-label="The findings contradict each other">
      <h3>
        <CautionMark /> The findings contradict each other
      </h3>
      <p>{contradiction.sentence}</p>
      <p>
        No set of faults this bench knows shows all of this together, so there is no verdict yet. The bench is right and
        a reading or the knowledge is not: look again, or take back the answer you trust least.
      </p>
      <ul class="jumps">
        {involved.map((finding) => (
          <li key={finding.id}>
            <button type="button" onClick={() => jumpTo(session, stepOf(finding), findingKey(finding.id))}>
              Look again: {finding.name}
            </button>
          </li>
        ))}
      </ul>
      <button type="button" class="quiet" onClick={() => session.undo()}>
        Take back the last answer
      </button>
    </section>
  );
}

export function BadRecordNotice({ bad, catalogue }: { bad: BadRecord; catalogue: Catalogue }) {
  const session = useSession();
  const record = session.desk.value?.record;
  const findingOf = (path: string) => {
    const id = record === undefined ? null : findingOfIssue(path, record);
    return catalogue.findings.find((finding) => finding.id === id);
  };
  return (
    <section class="notice" aria-label="Something on the card cannot be read">
      <h3>
        <CautionMark /> Something here cannot be read
      </h3>
      <ul class="issues">
        {bad.issues.map((issue) => (
          <li key={`${issue.path} ${issue.wrong}`}>
            <strong>{issue.wrong}</strong>
            {issue.typed !== undefined && (
              <>
                {' '}
                You typed <q>{issue.typed}</q>.
              </>
            )}{' '}
            {issue.todo} <PlaceOfIssue path={issue.path} finding={findingOf(issue.path)} />
          </li>
        ))}
      </ul>
      <p>Everything typed is kept. The verdict comes back as soon as this is put right.</p>
    </section>
  );
}

function PlaceOfIssue({ path, finding }: { path: string; finding: FindingView | undefined }) {
  const session = useSession();
  if (finding === undefined) return <small>{path}</small>;
  return (
    <button type="button" onClick={() => jumpTo(session, stepOf(finding), findingKey(finding.id))}>
      Go to: {finding.name}
    </button>
  );
}

export function FailureNotice({ failure }: { failure: string }) {
  return (
    <section class="notice" aria-label="The assessment broke down">
      <h3>
        <CautionMark /> The assessment broke down
      </h3>
      <p>
        Your answers are safe. Reload the page; if it happens again, this is our fault and the text below helps to find
        it.
      </p>
      <pre>{failure}</pre>
      <button type="button" onClick={() => location.reload()}>
        Reload
      </button>
    </section>
  );
}
