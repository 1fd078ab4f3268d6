/** One value of the balls as it is typed: kept with the card when it can be read, as a draft until then. */
import type { ComponentChildren } from 'preact';
import type { Joint } from '../../ball-grid/answer.ts';
import { ALLOY_NAMES, BALL_FIELDS, type FieldRefused, readBallNumber, readVoids } from '../../ball-grid/fields.ts';
import type { BallNumber } from '../../record/ball-bounds.ts';
import { sayIssue } from '../issues.ts';
import { language } from '../language.ts';
import { type ReadText, TypedField } from '../questions/typed-field.tsx';
import { useSession } from '../session.ts';
import { capital } from '../words.ts';
import { ballField, ballsOf, withBall } from './keep-balls.ts';
import { ballsWords, jointWords } from './words.ts';

interface Of {
  readonly kind: string;
  readonly joint: Joint;
}

const refusedAs = ({ wrong, todo, told }: FieldRefused): ReadText => {
  const said = told === undefined ? { wrong, todo } : sayIssue({ wrong, todo, told });
  return { ok: false, wrong: said.wrong, todo: said.todo };
};

const troubleAt = ({ problems }: Joint, name: string) => problems.find(({ field }) => field === name);

interface NumberProps extends Of {
  readonly field: BallNumber;
  /** shown where nothing is typed: what is taken then */
  readonly usual?: string;
}

export function BallNumberField({ kind, joint, field: name, usual }: NumberProps) {
  const { desk, drafts, edit } = useSession();
  if (desk.value === null) return null;
  const id = ballField(kind, name);
  const kept = ballsOf(desk.value.record, kind)[name];
  const read = (text: string) => readBallNumber(text, name, language.value);
  const { unit } = BALL_FIELDS[name];
  return (
    <TypedField
      id={id}
      label={capital(jointWords.value.fields[name])}
      unit={unit === '' ? undefined : unit}
      stored={kept === undefined ? '' : String(kept)}
      draft={drafts.texts.value.get(id)}
      placeholder={usual ?? ''}
      read={(text) => {
        const found = read(text);
        return found.ok ? { ok: true } : refusedAs(found.refused);
      }}
      same={(text, stored) => {
        const found = read(text);
        return text.trim() === stored || (found.ok && String(found.value) === stored);
      }}
      onText={(text, readable) => {
        drafts.set(id, readable ? null : text);
        if (!readable) return;
        const found = text.trim() === '' ? null : read(text);
        edit((record) => withBall(record, kind, name, found?.ok ? found.value : undefined), id);
      }}
      trouble={troubleAt(joint, name)}
    />
  );
}

export function VoidsField({ kind, joint }: Of) {
  const { desk, drafts, edit } = useSession();
  const { voids: words } = ballsWords.value;
  if (desk.value === null) return null;
  const id = ballField(kind, 'voidsMillimetres');
  const kept = ballsOf(desk.value.record, kind).voidsMillimetres;
  const read = (text: string) => readVoids(text, language.value);
  return (
    <TypedField
      id={id}
      label={words.voids}
      unit="mm"
      size="long"
      stored={kept?.join(' ') ?? ''}
      draft={drafts.texts.value.get(id)}
      placeholder={words.example}
      read={(text) => {
        const found = read(text);
        return found.ok ? { ok: true } : refusedAs(found.refused);
      }}
      same={(text, stored) => {
        const found = read(text);
        return text.trim() === stored || (found.ok && found.values.join(' ') === stored);
      }}
      onText={(text, readable) => {
        drafts.set(id, readable ? null : text);
        if (!readable) return;
        const found = text.trim() === '' ? null : read(text);
        edit((record) => withBall(record, kind, 'voidsMillimetres', found?.ok ? [...found.values] : undefined), id);
      }}
      trouble={troubleAt(joint, 'voidsMillimetres')}
    />
  );
}

/** `none`: what is taken where no alloy is chosen. */
export function AlloyField({
  kind,
  joint,
  field: name,
  none,
}: Of & { readonly field: 'ballAlloy' | 'padAlloy'; readonly none: ComponentChildren }) {
  const { desk, edit } = useSession();
  if (desk.value === null) return null;
  const id = ballField(kind, name);
  const kept = ballsOf(desk.value.record, kind)[name];
  const trouble = troubleAt(joint, name);
  return (
    <span class="field">
      <label class="field-label" for={id}>
        {capital(jointWords.value.fields[name])}
      </label>
      <select
        id={id}
        value={kept ?? ''}
        aria-invalid={trouble !== undefined}
        aria-describedby={trouble === undefined ? undefined : `${id}-wrong`}
        onChange={({ currentTarget: { value } }) =>
          edit((record) => withBall(record, kind, name, value === '' ? undefined : value), id)
        }
      >
        <option value="">{none}</option>
        {kept !== undefined && !ALLOY_NAMES.includes(kept) && <option value={kept}>{kept}</option>}
        {ALLOY_NAMES.map((alloy) => (
          <option value={alloy} key={alloy}>
            {alloy}
          </option>
        ))}
      </select>
      {trouble !== undefined && (
        <span class="field-wrong" id={`${id}-wrong`}>
          <strong>{trouble.wrong}</strong> {trouble.todo}
        </span>
      )}
    </span>
  );
}
