import type { EvidenceItem } from '../../assessment.ts';
import type { FindingView } from '../catalogue.ts';
import { answerFinding, clearFinding, findingAnswer } from '../desk.ts';
import { messages } from '../language.ts';
import type { Rail } from '../rails.ts';
import { useSession } from '../session.ts';
import { findingKey } from '../steps.ts';
import { Grade, KnownGoodField, ReadingField } from './reading.tsx';

interface Props {
  readonly rails: readonly Rail[];
  readonly evidence: ReadonlyMap<string, EvidenceItem>;
  /** voltages wait until power is allowed */
  readonly voltagesOpen: boolean;
}

export function ReadingsTable({ rails, evidence, voltagesOpen }: Props) {
  const { readings } = messages.value;
  return (
    <div class="readings">
      <table>
        <caption class="visually-hidden">{readings.caption}</caption>
        <thead>
          <tr>
            <th scope="col">{readings.rail}</th>
            <th scope="col">{readings.toGround}</th>
            <th scope="col">{readings.knownGood}</th>
            <th scope="col">{readings.says}</th>
            <th scope="col">{readings.voltage}</th>
            <th scope="col">{readings.says}</th>
          </tr>
        </thead>
        <tbody>
          {rails.map((rail) => (
            <tr key={rail.id}>
              <th scope="row">{rail.name}</th>
              <ResistanceCells rail={rail} evidence={evidence} />
              <VoltageCells rail={rail} evidence={evidence} open={voltagesOpen} />
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

type CellsProps = { readonly rail: Rail; readonly evidence: ReadonlyMap<string, EvidenceItem> };

function ResistanceCells({ rail, evidence }: CellsProps) {
  const finding = rail.resistance;
  const { readings } = messages.value;
  if (finding === null) return <td colSpan={3} class="no-reading" />;
  return (
    <>
      <td data-label={readings.toGround}>
        <span id={findingKey(finding.id)} data-question data-column="ground">
          <ReadingField finding={finding} label={readings.resistanceOf(rail.name)} hideLabel />
        </span>
      </td>
      <td data-label={readings.knownGood}>
        <span data-question data-column="known-good">
          <KnownGoodField finding={finding} label={readings.knownGoodOf(rail.name)} hideLabel />
        </span>
      </td>
      <td data-label={readings.says}>
        <StatePick
          finding={finding}
          evidence={evidence.get(finding.id)}
          label={readings.resistanceInWords(rail.name)}
        />
      </td>
    </>
  );
}

function VoltageCells({ rail, evidence, open }: CellsProps & { readonly open: boolean }) {
  const finding = rail.voltage;
  const { readings } = messages.value;
  if (finding === null) return <td colSpan={2} class="no-reading" />;
  return (
    <>
      <td data-label={readings.voltage}>
        <span id={findingKey(finding.id)} data-question={open || undefined} data-column="voltage">
          <ReadingField finding={finding} label={readings.voltageOf(rail.name)} hideLabel disabled={!open} />
        </span>
      </td>
      <td data-label={readings.says}>
        <StatePick
          finding={finding}
          evidence={evidence.get(finding.id)}
          label={readings.voltageInWords(rail.name)}
          disabled={!open}
        />
      </td>
    </>
  );
}

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
function StatePick({ finding, evidence, label, disabled }: PickProps) {
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
          <option key={state.id} value={state.id}>
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
