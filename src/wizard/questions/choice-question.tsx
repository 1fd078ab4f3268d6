import type { ComponentChildren } from 'preact';
import { messages, rulesLanguage } from '../language.ts';

export interface Choice {
  /** null: can't tell · undefined: not looked at */
  readonly value: string | null | undefined;
  readonly name: string;
  /** where the words come from the rules */
  readonly lang?: string;
}

/** Keys that answer while the question has the focus: digits for the states in order, ? and - for the other two. */
const DIGITS = '1234567890';
export const keyOfChoice = (choice: Choice, index: number): string => {
  if (choice.value === null) return '?';
  return choice.value === undefined ? '–' : (DIGITS[index] ?? '');
};

export const isTypedFor = (event: KeyboardEvent): boolean => !event.ctrlKey && !event.metaKey && !event.altKey;

export function withUnknowns(states: readonly Choice[], notAsked: string): readonly Choice[] {
  return [...states, { value: null, name: messages.value.questions.cannotTell }, { value: undefined, name: notAsked }];
}

interface Props {
  readonly id: string;
  readonly question: string;
  readonly about?: ComponentChildren;
  readonly choices: readonly Choice[];
  readonly value: string | null | undefined;
  readonly onAnswer: (value: string | null | undefined) => void;
  readonly layout: 'rows' | 'line';
  readonly disabled?: boolean;
  readonly children?: ComponentChildren;
}

export function ChoiceQuestion({ id, question, about, choices, value, onAnswer, layout, disabled, children }: Props) {
  const answerByKey = (event: KeyboardEvent & { readonly currentTarget: HTMLElement }) => {
    if (!isTypedFor(event)) return;
    const pressed = event.key === '-' || event.key === 'Backspace' || event.key === 'Delete' ? '–' : event.key;
    const index = choices.findIndex((choice, i) => keyOfChoice(choice, i) === pressed);
    if (index < 0) return;
    event.preventDefault();
    onAnswer(choices[index]!.value);
    event.currentTarget.querySelectorAll<HTMLInputElement>('input[type=radio]')[index]?.focus();
  };
  return (
    <fieldset
      id={id}
      class={`question question-${layout}`}
      aria-labelledby={`${id}-question`}
      aria-describedby={about ? `${id}-about` : undefined}
      data-question
      data-answered={value !== undefined}
      disabled={disabled ?? false}
      onKeyDown={answerByKey}
    >
      <legend>
        <span lang={rulesLanguage.value} id={`${id}-question`}>
          {question}
        </span>
        {about && <small id={`${id}-about`}> {about}</small>}
      </legend>
      <div class="choices">
        {choices.map((choice, index) => (
          <label
            class="choice"
            data-quiet={choice.value === null || choice.value === undefined}
            key={String(choice.value)}
          >
            <input
              type="radio"
              name={id}
              checked={value === choice.value}
              onChange={() => onAnswer(choice.value)}
              aria-keyshortcuts={keyOfChoice(choice, index).replace('–', '-')}
            />
            <span class="choice-name" lang={choice.lang}>
              {choice.name}
            </span>
            <span class="key" aria-hidden="true">
              {keyOfChoice(choice, index)}
            </span>
          </label>
        ))}
      </div>
      {children}
    </fieldset>
  );
}
