import type { ComponentChildren } from 'preact';
import { messages, rulesLanguage } from '../language.ts';
import { sayNumber } from '../words.ts';
import { plainNumber } from './plain-number.ts';
import { TypedField } from './typed-field.tsx';

interface Props {
  readonly id: string;
  readonly question: string;
  readonly about?: ComponentChildren;
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  readonly value: number | null | undefined;
  readonly draft: string | undefined;
  readonly onAnswer: (value: number | null | undefined) => void;
  readonly onDraft: (text: string | null) => void;
}

export function readNumber(text: string, min: number, max: number, unit: string) {
  const number = plainNumber(text, max);
  const { questions } = messages.value;
  const todo = questions.typeANumber(sayNumber(min), sayNumber(max), unit);
  if (Number.isNaN(number)) return { ok: false, wrong: questions.notANumber(text.trim()), todo } as const;
  if (number < min || number > max) return { ok: false, wrong: questions.outside(text.trim()), todo } as const;
  return { ok: true, number } as const;
}

export function NumberQuestion({ id, question, about, unit, min, max, value, draft, onAnswer, onDraft }: Props) {
  const read = (text: string) => readNumber(text, min, max, unit);
  const takeText = (text: string, readable: boolean) => {
    onDraft(readable ? null : text);
    if (!readable) return;
    const reading = text.trim() === '' ? null : read(text);
    onAnswer(reading?.ok ? reading.number : undefined);
  };
  const answerByKey = (event: KeyboardEvent) => {
    if (event.key !== '?') return;
    event.preventDefault();
    onDraft(null);
    onAnswer(value === null ? undefined : null);
  };
  return (
    <fieldset
      id={id}
      class="question question-line"
      aria-labelledby={`${id}-question`}
      aria-describedby={about ? `${id}-about` : undefined}
      data-question
      data-answered={value !== undefined}
      onKeyDown={answerByKey}
    >
      <legend>
        <span lang={rulesLanguage.value} id={`${id}-question`}>
          {question}
        </span>
        {about && <small id={`${id}-about`}> {about}</small>}
      </legend>
      <div class="choices">
        <TypedField
          id={`${id}-number`}
          label={question}
          hideLabel
          unit={unit}
          stored={typeof value === 'number' ? String(value) : ''}
          draft={draft}
          read={read}
          same={(text, stored) =>
            text.trim() === '' ? stored === '' : plainNumber(text, max) === Number(stored) && stored !== ''
          }
          onText={takeText}
        />
        <label class="choice" data-quiet="true">
          <input
            type="checkbox"
            checked={value === null}
            onChange={() => {
              onDraft(null);
              onAnswer(value === null ? undefined : null);
            }}
          />
          <span class="choice-name">{messages.value.questions.cannotTell}</span>
          <span class="key" aria-hidden="true">
            ?
          </span>
        </label>
      </div>
    </fieldset>
  );
}
