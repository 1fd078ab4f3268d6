/** After the last hold point: whether the card works, and on to handing it back. */
import { useId } from 'preact/hooks';
import type { Record as CardRecord } from '../../record/schema.ts';
import { finishWork } from '../../work-order/record-step.ts';
import { takeBackWord } from '../../work-order/take-back.ts';
import type { Catalogue } from '../catalogue.ts';
import { jumpTo, onceDrawn } from '../frame/jump.ts';
import { ArrowMark } from '../frame/marks.tsx';
import { formatTag, rulesLanguage } from '../language.ts';
import { useSession } from '../session.ts';
import { outcomeOf } from './outcome-keys.ts';
import { enterFromName, standOnWaiting } from './stand-on-waiting.ts';
import type { DoneWork } from './under-way.ts';
import { workWords } from './words.ts';

interface Props {
  readonly over: boolean;
  readonly touched: boolean;
}

export function Finish({ over, touched }: Props) {
  const session = useSession();
  const { finish: words } = workWords.value;
  const name = useId();
  const say = (worked: boolean) => {
    session.edit((record) => {
      const said = finishWork(record, worked);
      return said.ok ? said.record : record;
    });
    onceDrawn(standOnWaiting);
  };
  const hearKey = (event: KeyboardEvent) => {
    if (enterFromName(event)) return;
    const outcome = outcomeOf(event);
    if (outcome === null) return;
    if (outcome === 'left-out') jumpTo(session, 'came-back');
    else say(outcome === 'passed');
    event.preventDefault();
  };
  if (!touched)
    return (
      <section class="hold-point" aria-labelledby={name} onKeyDown={enterFromName}>
        <h2 tabIndex={-1} id={name} class="hold-name">
          {words.untouched}
        </h2>
        <div class="outcomes-row" data-question>
          <button type="button" class="main outcome" onClick={() => jumpTo(session, 'verdict')}>
            {words.decide}
          </button>
        </div>
      </section>
    );
  return (
    <section class="hold-point" aria-labelledby={name} onKeyDown={hearKey}>
      <p class="hold-where">{over ? words.over : words.about}</p>
      <h2 tabIndex={-1} id={name} class="hold-name">
        {words.heading}
      </h2>
      <div class="outcomes-row" data-question>
        <Said name={words.works} digit="1" onSay={() => say(true)} main />
        <Said name={words.fails} digit="2" onSay={() => say(false)} />
        <Said name={words.untested} digit="3" onSay={() => jumpTo(session, 'came-back')} />
      </div>
      <p class="about">{words.untestedAbout}</p>
    </section>
  );
}

interface SaidProps {
  readonly name: string;
  readonly digit: string;
  readonly main?: boolean;
  readonly onSay: () => void;
}

function Said({ name, digit, main, onSay }: SaidProps) {
  return (
    <button type="button" class={main ? 'main outcome' : 'outcome'} onClick={onSay} aria-keyshortcuts={digit}>
      {name}
      <span class="key" aria-hidden="true">
        {digit}
      </span>
    </button>
  );
}

/** The work that was done last, while the card has not come back. */
export function Done({
  record,
  done: { event, process },
  catalogue,
}: {
  readonly record: CardRecord;
  readonly done: DoneWork;
  readonly catalogue: Catalogue;
}) {
  const session = useSession();
  const { finish: words } = workWords.value;
  const name = catalogue.remedies.find(({ id }) => id === event.remedy)?.name ?? event.remedy;
  const first = process.steps[0];
  const day = new Intl.DateTimeFormat(formatTag(catalogue.shop.locale), { dateStyle: 'medium' });
  const before = takeBackWord(record);
  const title = useId();
  const takeBack = () => {
    session.edit((latest) => takeBackWord(latest) ?? latest);
    onceDrawn(standOnWaiting);
  };
  return (
    <section class="hold-point" aria-labelledby={title} onKeyDown={enterFromName}>
      <p class="hold-where" lang={rulesLanguage.value}>
        {name}
      </p>
      <h2 tabIndex={-1} id={title} class="hold-name">
        {event.worked === null ? words.untested : event.worked ? words.done.worked : words.done.failed}
      </h2>
      {first !== undefined && <p>{words.recorded(process.steps.length, day.format(new Date(first.at)))}</p>}
      <div class="outcomes-row" data-question>
        <button type="button" class="main outcome" onClick={() => jumpTo(session, 'came-back')}>
          {words.handBack} <ArrowMark />
        </button>
        {before !== null && (
          <button type="button" class="quiet" onClick={takeBack}>
            {words.takeBack}
          </button>
        )}
      </div>
    </section>
  );
}
