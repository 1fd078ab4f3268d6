import type { Assessment } from '../../assessment.ts';
import type { Catalogue } from '../catalogue.ts';
import { rulesLanguage } from '../language.ts';
import { useSession } from '../session.ts';
import { advisedWork, REMEDY_DRAFT } from './under-way.ts';
import { workWords } from './words.ts';

interface Props {
  readonly assessment: Assessment | null;
  readonly catalogue: Catalogue;
  /** shown now; undefined: none */
  readonly remedy: string | undefined;
}

/** Whatever the verdict says, the bench may see the order of other work; what is closed says so. */
export function RemedyPick({ assessment, catalogue, remedy }: Props) {
  const { drafts } = useSession();
  const { pick: words } = workWords.value;
  const advised = advisedWork(assessment)?.id;
  const closed = new Set(assessment?.kind === 'assessed' ? assessment.closedRemedies.map(({ id }) => id) : []);
  const open = catalogue.remedies.filter(({ id }) => !closed.has(id));
  const rest = catalogue.remedies.filter(({ id }) => closed.has(id));
  const option = ({ id, name }: Catalogue['remedies'][number]) => (
    <option key={id} value={id} lang={rulesLanguage.value}>
      {id === advised ? `${name} (${words.advised})` : name}
    </option>
  );
  return (
    <label class="remedy-pick">
      <span class="field-label">{words.label}</span>
      <select
        id="work-remedy"
        value={remedy ?? ''}
        onChange={({ currentTarget }) => {
          const { value } = currentTarget;
          // after work that is done the verdict's own must be asked for, too
          drafts.set(REMEDY_DRAFT, value === '' || (value === advised && remedy !== undefined) ? null : value);
        }}
      >
        {remedy === undefined && <option value="">–</option>}
        {open.map(option)}
        {rest.length > 0 && <optgroup label={words.closed}>{rest.map(option)}</optgroup>}
      </select>
    </label>
  );
}
