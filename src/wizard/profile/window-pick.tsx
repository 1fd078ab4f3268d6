/** What a thermocouple log is held to: the shop's own window where it has one for this solder, or the class of the package. */
import type { JudgedBy } from '../../assess/thermal-profile.ts';
import type { Shop } from '../../shop/schema.ts';
import { cameBackWords } from '../came-back/words.ts';
import { TypedField } from '../questions/typed-field.tsx';

const ALLOYS = ['snpb', 'lead-free'] as const;
type Alloy = (typeof ALLOYS)[number];
/** Packages of graphics cards are rated for lead-free solder, whatever the bench solders them with. */
const USUALLY_RATED: Alloy = 'lead-free';

type Windows = Shop['reflowWindows'];

export interface WindowChoice {
  readonly solder: Alloy;
  /** by the class of the package although the shop has a window of its own */
  readonly byClass: boolean;
  readonly rated: Alloy;
  /** as typed; empty: not known */
  readonly thickness: string;
  readonly volume: string;
}

export function firstChoice(remedy: string | null): WindowChoice {
  const leaded = remedy?.includes('leaded') && !remedy.includes('lead-free');
  return { solder: leaded ? 'snpb' : 'lead-free', byClass: false, rated: USUALLY_RATED, thickness: '', volume: '' };
}

const ownWindow = (solder: Alloy, windows: Windows) =>
  windows?.find((one) => one.solder === (solder === 'snpb' ? 'leaded' : solder))?.window;

export function judgedBy({ solder, byClass, rated, thickness, volume }: WindowChoice, windows: Windows): JudgedBy {
  const own = ownWindow(solder, windows);
  if (own !== undefined && !byClass) return { own };
  return { solder, rated, ...sized('thickness', thickness), ...sized('volume', volume) };
}

interface Props {
  readonly choice: WindowChoice;
  readonly windows: Windows;
  readonly onChoice: (choice: WindowChoice) => void;
}

export function WindowPick({ choice, windows, onChoice }: Props) {
  const { profile: words } = cameBackWords.value;
  const own = ownWindow(choice.solder, windows);
  const put = (change: Partial<WindowChoice>) => onChoice({ ...choice, ...change });
  return (
    <div class="profile-choices">
      <Pick
        name="solder"
        legend={words.solder}
        options={ALLOYS.map((alloy) => [alloy, words.alloys[alloy]])}
        value={choice.solder}
        onPick={(solder) => put({ solder })}
      />
      {own !== undefined && (
        <Pick
          name="by"
          legend={words.heldTo}
          options={[
            ['own', words.ownWindow(own.name)],
            ['class', words.byClass],
          ]}
          value={choice.byClass ? 'class' : 'own'}
          onPick={(by) => put({ byClass: by === 'class' })}
        />
      )}
      {(own === undefined || choice.byClass) && (
        <>
          <Pick
            name="rated"
            legend={words.rated}
            options={ALLOYS.map((alloy) => [alloy, words.alloys[alloy]])}
            value={choice.rated}
            onPick={(rated) => put({ rated })}
          />
          <Size
            id="thickness"
            label={words.thickness}
            unit="mm"
            value={choice.thickness}
            onValue={(thickness) => put({ thickness })}
          />
          <Size
            id="volume"
            label={words.volume}
            unit="mm³"
            value={choice.volume}
            onValue={(volume) => put({ volume })}
          />
          <small>{words.sizeAbout}</small>
        </>
      )}
    </div>
  );
}

const figureOf = (text: string): number | null => {
  const value = Number(text.trim().replace(',', '.'));
  return text.trim() !== '' && Number.isFinite(value) && value > 0 ? value : null;
};

function sized(key: 'thickness' | 'volume', text: string): { thickness?: number; volume?: number } {
  const value = figureOf(text);
  return value === null ? {} : { [key]: value };
}

interface PickProps<Value extends string> {
  readonly name: string;
  readonly legend: string;
  readonly options: readonly (readonly [Value, string])[];
  readonly value: Value;
  readonly onPick: (value: Value) => void;
}

function Pick<Value extends string>({ name, legend, options, value, onPick }: PickProps<Value>) {
  return (
    <fieldset class="profile-alloy" data-question>
      <legend>{legend}</legend>
      <div class="choices">
        {options.map(([option, said]) => (
          <label class="choice" key={option}>
            <input type="radio" name={`profile-${name}`} checked={value === option} onChange={() => onPick(option)} />
            <span class="choice-name">{said}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

function Size({
  id,
  label,
  unit,
  value,
  onValue,
}: {
  readonly id: string;
  readonly label: string;
  readonly unit: string;
  readonly value: string;
  readonly onValue: (text: string) => void;
}) {
  const { service, profile } = cameBackWords.value;
  return (
    <div data-question>
      <TypedField
        id={`profile-${id}`}
        label={label}
        unit={unit}
        stored={value}
        read={(text) =>
          figureOf(text) === null
            ? { ok: false, wrong: service.notThat(text.trim()), todo: profile.positive }
            : { ok: true }
        }
        same={(text, stored) => text.trim() === stored}
        onText={(text, readable) => readable && onValue(text.trim())}
      />
    </div>
  );
}
