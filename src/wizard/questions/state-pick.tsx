import type { EvidenceItem } from '../../assessment.ts';
import type { FindingView } from '../catalogue.ts';
import { answerFinding, clearFinding, findingAnswer } from '../desk.ts';
import { messages, rulesLanguage } from '../language.ts';
import { useSession } from '../session.ts';
import { Grade } from './reading.tsx';

interface PickProps {
  readonly finding: FindingView;
  readonly evidence: EvidenceItem | undefined;
  readonly label: string;
  readonly disabled?: boolean;
}

/** One state, and nothing else worth a word. */
const isPlain = ({ weights }: EvidenceItem): boolean => weights.filter((weight) => weight >= 0.05).length <= 1;

const FROM_NUMBER = 'from-number';
const CANNOT_TELL = 'cannot-tell';
const NOT_LOOKED = 'not-looked';

/** The state itself, where there is no number or the number is not to be trusted. */
export function StatePick({ finding, evidence, label, disabled }: PickProps) {
  const { desk, edit } = useSession();
  const { readings, questions } = messages.value;
  if (desk.value === null) return null;
  const answer = findingAnswer(desk.value.record, finding.id, 'bench');
  const measured = answer?.type === 'measured';
  const value = measured ? FROM_NUMBER : answer === undefined ? NOT_LOOKED : (answer.state ?? CANNOT_TELL);
  const graded = finding.states.find(({ id }) => id === evidence?.state);
  const plain = graded === finding.states[0] && evidence !== undefined && isPlain(evidence);
  const pick = (picked: string) =>
    edit((record, at) => {
      if (picked === NOT_LOOKED) return clearFinding(record, finding.id, 'bench');
      return answerFinding(record, finding.id, picked === CANNOT_TELL ? null : picked, 'bench', at);
    });
  return (
    <span class="says">
      <select
        aria-label={label}
        value={value}
        disabled={disabled ?? false}
        data-quiet={value === NOT_LOOKED}
        onChange={({ currentTarget }) => pick(currentTarget.value)}
      >
        {measured && (
          <option value={FROM_NUMBER}>{graded ? readings.stateByNumber(graded.name) : readings.byNumber}</option>
        )}
        <option value={NOT_LOOKED}>{measured ? readings.takeOut : readings.notMeasured}</option>
        {finding.states.map((state) => (
          <option key={state.id} value={state.id} lang={rulesLanguage.value}>
            {state.name}
          </option>
        ))}
        <option value={CANNOT_TELL}>{questions.cannotTellAnswer}</option>
      </select>
      {measured && !plain && <Grade finding={finding} evidence={evidence} />}
      {measured && plain && evidence?.reading?.recentred && <small>{readings.againstKnownGood}</small>}
    </span>
  );
}
