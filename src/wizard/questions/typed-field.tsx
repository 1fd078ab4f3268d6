import { useEffect, useState } from 'preact/hooks';

export type ReadText = { readonly ok: true } | { readonly ok: false; readonly wrong: string; readonly todo: string };

interface Props {
  readonly id: string;
  readonly label: string;
  readonly hideLabel?: boolean;
  readonly unit?: string | undefined;
  /** the stored answer as it would be typed */
  readonly stored: string;
  /** typed earlier and not readable */
  readonly draft?: string | undefined;
  readonly placeholder?: string;
  readonly read: (text: string) => ReadText;
  /** whether the stored answer is what this text says */
  readonly same: (text: string, stored: string) => boolean;
  readonly onText: (text: string, readable: boolean) => void;
  readonly describedBy?: string | undefined;
  /** wrong in the light of the rest of the record, though it can be read */
  readonly trouble?: { readonly wrong: string; readonly todo: string } | undefined;
  readonly disabled?: boolean;
  readonly size?: 'short' | 'long';
}

/** One typed value. What cannot be read stays as typed, with what is wrong and what to do beside it. */
export function TypedField(props: Props) {
  const {
    id,
    label,
    hideLabel,
    unit,
    stored,
    draft,
    placeholder,
    read,
    same,
    onText,
    describedBy,
    disabled,
    size,
    trouble,
  } = props;
  const [text, setText] = useState(draft ?? stored);
  const [left, setLeft] = useState(draft !== undefined);
  // only what was changed from outside (undo, a pasted block, another window) may replace the typing
  useEffect(() => {
    if (draft === undefined && !same(text, stored)) setText(stored);
    if (draft !== undefined && draft !== text) {
      setText(draft);
      setLeft(true);
    }
  }, [stored, draft]);
  const reading = text.trim() === '' ? ({ ok: true } as const) : read(text);
  const shown = reading.ok ? trouble : left ? reading : undefined;
  const wrong = shown !== undefined;
  return (
    <span class={`field field-${size ?? 'short'}`}>
      <label class={hideLabel ? 'visually-hidden' : 'field-label'} for={id}>
        {label}
      </label>
      <span class="field-box" data-wrong={wrong}>
        <input
          id={id}
          type="text"
          inputMode="text"
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          value={text}
          placeholder={placeholder}
          disabled={disabled ?? false}
          aria-invalid={wrong}
          aria-describedby={[wrong ? `${id}-wrong` : '', describedBy ?? ''].join(' ').trim() || undefined}
          onInput={({ currentTarget }) => {
            const typed = currentTarget.value;
            setText(typed);
            const now = typed.trim() === '' || read(typed).ok;
            if (now) setLeft(false);
            onText(typed, now);
          }}
          onBlur={() => setLeft(true)}
          onKeyDown={({ key }) => key === 'Enter' && setLeft(true)}
        />
        {unit && <span class="field-unit">{unit}</span>}
      </span>
      {wrong && (
        <span class="field-wrong" id={`${id}-wrong`}>
          <strong>{shown.wrong}</strong> {shown.todo}
        </span>
      )}
    </span>
  );
}
