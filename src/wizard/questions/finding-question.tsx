import type { EvidenceItem } from '../../assessment.ts';
import type { FindingView } from '../catalogue.ts';
import { answerFinding, clearFinding, findingAnswer, type Witness } from '../desk.ts';
import { messages, rulesLanguage } from '../language.ts';
import { useSession } from '../session.ts';
import { ChoiceQuestion, withUnknowns } from './choice-question.tsx';
import { Reading } from './reading.tsx';

interface Props {
  readonly id: string;
  readonly finding: FindingView;
  readonly witness: Witness;
  readonly evidence: EvidenceItem | undefined;
  readonly disabled?: boolean;
}

/** A finding as a choice of its states, and where it can be measured, as a number above them. */
export function FindingQuestion({ id, finding, witness, evidence, disabled }: Props) {
  const { desk, edit } = useSession();
  if (desk.value === null) return null;
  const answer = findingAnswer(desk.value.record, finding.id, witness);
  const { questions } = messages.value;
  const told = witness === 'owner';
  const states = finding.states.map((state) => ({ value: state.id, name: state.name, lang: rulesLanguage.value }));
  return (
    <ChoiceQuestion
      id={id}
      question={finding.question}
      about={told ? questions.ownerTells : undefined}
      choices={withUnknowns(states, told ? questions.notAsked : questions.notLookedAt)}
      value={answer?.type === 'seen' ? answer.state : answer?.type === 'measured' ? evidence?.state : undefined}
      onAnswer={(state) =>
        edit((record, at) =>
          state === undefined
            ? clearFinding(record, finding.id, witness)
            : answerFinding(record, finding.id, state, witness, at),
        )
      }
      layout="rows"
      disabled={disabled ?? false}
    >
      {finding.reading !== null && !told && (
        <Reading finding={finding} evidence={evidence} disabled={disabled ?? false} />
      )}
    </ChoiceQuestion>
  );
}
