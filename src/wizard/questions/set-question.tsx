import type { ComponentChildren } from 'preact';
import { messages, rulesLanguage } from '../language.ts';
import { isTypedFor } from './choice-question.tsx';

interface Props {
  readonly id: string;
  readonly question: string;
  readonly about?: ComponentChildren;
  readonly values: readonly { readonly id: string; readonly name: string }[];
  /** null: can't tell · undefined: not asked · empty: none of these */
  readonly value: readonly string[] | null | undefined;
  readonly onAnswer: (value: readonly string[] | null | undefined) => void;
}

const DIGITS = '1234567890';

/** Several answers may hold at once. */
export function SetQuestion({ id, question, about, values, value, onAnswer }: Props) {
  const { questions } = messages.value;
  const chosen = value ?? [];
  const toggle = (member: string) =>
    onAnswer(
      chosen.includes(member)
        ? without(chosen, member)
        : values.map((v) => v.id).filter((v) => v === member || chosen.includes(v)),
    );
  const answerByKey = (event: KeyboardEvent & { readonly currentTarget: HTMLElement }) => {
    if (!isTypedFor(event)) return;
    const index = event.key.length === 1 ? DIGITS.indexOf(event.key) : -1;
    const member = index < 0 ? undefined : values[index];
    if (member !== undefined) {
      toggle(member.id);
      event.currentTarget.querySelectorAll<HTMLInputElement>('input[type=checkbox]')[index]?.focus();
    } else if (event.key === '?') onAnswer(value === null ? undefined : null);
    else if (event.key === '-' || event.key === 'Backspace' || event.key === 'Delete') onAnswer(undefined);
    else return;
    event.preventDefault();
  };
  const none = value !== null && value !== undefined && value.length === 0;
  return (
    <fieldset
      id={id}
      class="question question-rows"
      aria-labelledby={`${id}-question`}
      aria-describedby={`${id}-about`}
      data-question
      data-answered={value !== undefined}
      onKeyDown={answerByKey}
    >
      <legend>
        <span lang={rulesLanguage.value} id={`${id}-question`}>
          {question}
        </span>
        <small id={`${id}-about`}>
          {' '}
          {about} {questions.chooseAll}
        </small>
      </legend>
      <div class="choices">
        {values.map((member, index) => (
          <label class="choice choice-many" key={member.id}>
            <input
              type="checkbox"
              checked={chosen.includes(member.id)}
              onChange={() => toggle(member.id)}
              aria-keyshortcuts={DIGITS[index]}
            />
            <span class="choice-name" lang={rulesLanguage.value}>
              {member.name}
            </span>
            <span class="key" aria-hidden="true">
              {DIGITS[index]}
            </span>
          </label>
        ))}
        <Unknown name={questions.noneOfThese} on={none} onPick={() => onAnswer([])} />
        <Unknown name={questions.cannotTell} keyName="?" on={value === null} onPick={() => onAnswer(null)} />
        <Unknown name={questions.notAsked} keyName="–" on={value === undefined} onPick={() => onAnswer(undefined)} />
      </div>
    </fieldset>
  );
}

interface UnknownProps {
  readonly name: string;
  readonly keyName?: string;
  readonly on: boolean;
  readonly onPick: () => void;
}

function Unknown({ name, keyName, on, onPick }: UnknownProps) {
  return (
    <label class="choice" data-quiet="true">
      <input type="checkbox" checked={on} onChange={onPick} />
      <span class="choice-name">{name}</span>
      {keyName && (
        <span class="key" aria-hidden="true">
          {keyName}
        </span>
      )}
    </label>
  );
}

const without = (list: readonly string[], member: string): readonly string[] => list.filter((one) => one !== member);
