/** What is shown where a verdict would be when there is none: a contradiction, a record that cannot be read, a broken worker. */
import type { Assessment } from '../../assessment.ts';
import type { Catalogue, FindingView } from '../catalogue.ts';
import { findingOfIssue, sayIssue } from '../issues.ts';
import { messages, rulesLanguage } from '../language.ts';
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
  const { notices } = messages.value;
  const involved = [contradiction.finding, ...contradiction.against]
    .map((id) => catalogue.findings.find((finding) => finding.id === id))
    .filter((finding) => finding !== undefined);
  return (
    <section class="notice" aria-label={notices.contradiction}>
      <h3>
        <CautionMark /> {notices.contradiction}
      </h3>
      <p lang={rulesLanguage.value}>{contradiction.sentence}</p>
      <p>{notices.contradictionAbout}</p>
      <ul class="jumps">
        {involved.map((finding) => (
          <li key={finding.id}>
            <button type="button" onClick={() => jumpTo(session, stepOf(finding), findingKey(finding.id))}>
              {notices.lookAgain(finding.name)}
            </button>
          </li>
        ))}
      </ul>
      <button type="button" class="quiet" onClick={() => session.undo()}>
        {notices.takeBack}
      </button>
    </section>
  );
}

export function BadRecordNotice({ bad, catalogue }: { bad: BadRecord; catalogue: Catalogue }) {
  const session = useSession();
  const { notices } = messages.value;
  const record = session.desk.value?.record;
  const findingOf = (path: string) => {
    const id = record === undefined ? null : findingOfIssue(path, record);
    return catalogue.findings.find((finding) => finding.id === id);
  };
  return (
    <section class="notice" aria-label={notices.unreadableLabel}>
      <h3>
        <CautionMark /> {notices.unreadable}
      </h3>
      <ul class="issues">
        {bad.issues
          .map((issue) => ({ ...issue, ...sayIssue(issue) }))
          .map((issue) => (
            <li key={`${issue.path} ${issue.wrong}`}>
              <strong lang={issue.lang}>{issue.wrong}</strong>
              {issue.typed !== undefined && (
                <>
                  {' '}
                  {notices.youTyped} <q>{issue.typed}</q>.
                </>
              )}{' '}
              <span lang={issue.lang}>{issue.todo}</span>{' '}
              <PlaceOfIssue path={issue.path} finding={findingOf(issue.path)} />
            </li>
          ))}
      </ul>
      <p>{notices.everythingKept}</p>
    </section>
  );
}

function PlaceOfIssue({ path, finding }: { path: string; finding: FindingView | undefined }) {
  const session = useSession();
  if (finding === undefined) return <small>{path}</small>;
  return (
    <button type="button" onClick={() => jumpTo(session, stepOf(finding), findingKey(finding.id))}>
      {messages.value.notices.goTo(finding.name)}
    </button>
  );
}

export function FailureNotice({ failure }: { failure: string }) {
  const { notices } = messages.value;
  return (
    <section class="notice" aria-label={notices.failure}>
      <h3>
        <CautionMark /> {notices.failure}
      </h3>
      <p>{notices.failureAbout}</p>
      <pre lang="en">{failure}</pre>
      <button type="button" onClick={() => location.reload()}>
        {notices.reload}
      </button>
    </section>
  );
}
