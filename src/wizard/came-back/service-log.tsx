/** When the card left, what the owner said of it, when it came back: each with its day, written down as soon as it makes sense. */
import type { ComponentChildren } from 'preact';
import type { Event, Record } from '../../record/schema.ts';
import { readAmount } from '../amounts.ts';
import type { Catalogue } from '../catalogue.ts';
import { formatTag } from '../language.ts';
import { TypedField } from '../questions/typed-field.tsx';
import { useSession } from '../session.ts';
import { dayOf, outAgain, type Placed, putOn, type Service, setPaid, setWorkedDays, takeOut } from './service.ts';
import { cameBackWords } from './words.ts';

interface Props {
  readonly record: Record;
  readonly service: Service;
  readonly catalogue: Catalogue;
}

type Kind = 'handed-back' | 'still-working' | 'came-back';
const DAY = 86_400_000;
/** beyond this many days it is a slip of the finger, as in the record */
const MOST_DAYS = 36_525;

export function ServiceLog({ record, service, catalogue }: Props) {
  const { service: words } = cameBackWords.value;
  const { handedBack, stillWorking, cameBack, earlier } = service;
  return (
    <section class="service-log">
      <h2>{words.heading}</h2>
      {earlier.length > 0 && <Earlier earlier={earlier} catalogue={catalogue} />}
      <Happened kind="handed-back" name={words.handedBack} event={handedBack} record={record} catalogue={catalogue}>
        {handedBack !== null && <Paid paid={handedBack.paid} catalogue={catalogue} />}
      </Happened>
      {handedBack === null && cameBack === null ? (
        <p class="about">{words.firstHandBack}</p>
      ) : (
        <>
          <Happened
            kind="still-working"
            name={words.stillWorking}
            event={stillWorking}
            record={record}
            catalogue={catalogue}
          />
          <Happened kind="came-back" name={words.cameBack} event={cameBack} record={record} catalogue={catalogue}>
            {cameBack !== null && <Worked service={service} workedDays={cameBack.workedDays} />}
          </Happened>
          {cameBack !== null && <OutAgain />}
        </>
      )}
    </section>
  );
}

/** Returns after which nothing was done: said, and no longer to be changed here. */
function Earlier({ earlier, catalogue }: { readonly earlier: Service['earlier']; readonly catalogue: Catalogue }) {
  const { service: words } = cameBackWords.value;
  const format = new Intl.DateTimeFormat(formatTag(catalogue.shop.locale), { dateStyle: 'medium' });
  const day = (at: string) => format.format(new Date(at));
  return (
    <ol class="service-earlier">
      {earlier.map(({ left, cameBack }) => (
        <li key={cameBack.at}>
          {left.type === 'treated'
            ? words.backOnly(day(cameBack.at))
            : words.outAndBack(day(left.at), day(cameBack.at))}
        </li>
      ))}
    </ol>
  );
}

function OutAgain() {
  const { edit } = useSession();
  const { service: words } = cameBackWords.value;
  return (
    <div class="service-again">
      <button type="button" onClick={() => edit((latest, at) => outAgain(latest, at))}>
        {words.outAgain}
      </button>
      <p class="about">{words.outAgainAbout}</p>
    </div>
  );
}

function Happened({
  kind,
  name,
  event,
  record,
  catalogue,
  children,
}: {
  readonly kind: Kind;
  readonly name: string;
  readonly event: Event | null;
  readonly record: Record;
  readonly catalogue: Catalogue;
  readonly children?: ComponentChildren;
}) {
  const { drafts, edit } = useSession();
  const { service: words } = cameBackWords.value;
  const key = `service-${kind}`;
  const typed = drafts.texts.value.get(key);
  const now = new Date().toISOString();
  const stored = event === null ? '' : dayOf(event.at);
  const wrong = typed === undefined ? null : whyNot(putOn(record, kind, typed, now), catalogue);
  const put = (day: string) => {
    if (day === '') {
      drafts.set(key, null);
      return;
    }
    // the screen may have been drawn on another day than it is filled in on
    const placed = putOn(record, kind, day, new Date().toISOString());
    drafts.set(key, placed.ok ? null : day);
    if (!placed.ok) return;
    edit((latest, at) => {
      const again = putOn(latest, kind, day, at);
      return again.ok ? again.record : latest;
    }, key);
  };
  return (
    <div class="service-event" data-question data-done={event !== null}>
      <span class="service-name">{name}</span>
      <span class="field">
        <label class="visually-hidden" for={key}>
          {words.day(name)}
        </label>
        <span class="field-box" data-wrong={wrong !== null}>
          <input
            id={key}
            type="date"
            value={typed ?? stored}
            max={dayOf(now)}
            aria-invalid={wrong !== null}
            aria-describedby={wrong === null ? undefined : `${key}-wrong`}
            onChange={({ currentTarget }) => put(currentTarget.value)}
          />
        </span>
        {wrong !== null && (
          <span class="field-wrong" id={`${key}-wrong`}>
            <strong>{wrong}</strong>
          </span>
        )}
      </span>
      {event === null ? (
        <button type="button" onClick={() => put(dayOf(new Date().toISOString()))}>
          {words.today}
          <span class="visually-hidden">: {name}</span>
        </button>
      ) : (
        <button
          type="button"
          class="quiet"
          aria-label={words.takeOutLong(name)}
          onClick={() => {
            drafts.set(key, null);
            edit((latest) => takeOut(latest, kind));
          }}
        >
          {words.takeOut}
        </button>
      )}
      {children !== undefined && <div class="service-more">{children}</div>}
    </div>
  );
}

function whyNot(placed: Placed, { shop }: Catalogue): string | null {
  if (placed.ok) return null;
  const { service: words } = cameBackWords.value;
  if (placed.why === 'future') return words.notYet;
  if (placed.why === 'no-day' || placed.than === null) return words.noDay;
  const { type, at } = placed.than;
  const was = type in words.was ? words.was[type as keyof typeof words.was] : words.was.other;
  const day = new Intl.DateTimeFormat(formatTag(shop.locale), { dateStyle: 'medium' }).format(new Date(at));
  return placed.why === 'before' ? words.notBefore(was, day) : words.notAfter(was, day);
}

function Paid({ paid, catalogue }: { readonly paid: number | undefined; readonly catalogue: Catalogue }) {
  const { drafts, edit } = useSession();
  const { service: words } = cameBackWords.value;
  const read = (text: string) => {
    const amount = readAmount(text);
    return amount.ok && typeof amount.amount === 'number'
      ? ({ ok: true } as const)
      : { ok: false as const, wrong: words.notThat(text.trim()), todo: words.moneyOnly };
  };
  return (
    <>
      <TypedField
        id="service-paid"
        label={words.paid}
        unit={catalogue.shop.currency}
        stored={paid === undefined ? '' : String(paid)}
        draft={drafts.texts.value.get('service-paid')}
        read={read}
        same={(text, stored) => text.trim() === stored}
        onText={(text, readable) => {
          drafts.set('service-paid', readable ? null : text);
          if (!readable) return;
          const amount = readAmount(text);
          const figure = amount.ok && typeof amount.amount === 'number' ? amount.amount : undefined;
          edit((latest) => setPaid(latest, text.trim() === '' ? undefined : figure), 'service-paid');
        }}
        describedBy="service-paid-about"
      />
      <small id="service-paid-about">{words.paidAbout}</small>
    </>
  );
}

function Worked({
  service,
  workedDays,
}: {
  readonly service: Service;
  readonly workedDays: number | null | undefined;
}) {
  const { drafts, edit } = useSession();
  const { service: words } = cameBackWords.value;
  const { handedBack, treated, stillWorking, cameBack } = service;
  const daysSinceOut = ({ at }: { readonly at: string }) =>
    Math.max(0, Math.floor((Date.parse(at) - Date.parse((handedBack ?? treated).at)) / DAY));
  const away = daysSinceOut(cameBack!);
  const heard = stillWorking === null ? 0 : daysSinceOut(stillWorking);
  const read = (text: string) => {
    const days = Number(text.trim());
    if (!/^\d+$/.test(text.trim()) || days > MOST_DAYS)
      return { ok: false as const, wrong: words.notThat(text.trim()), todo: words.daysOnly };
    if (days > away) return { ok: false as const, wrong: words.longer(away), todo: words.daysOnly };
    return days < heard
      ? { ok: false as const, wrong: words.shorter(heard), todo: words.daysOnly }
      : ({ ok: true } as const);
  };
  const pick = (days: number | null | undefined) => {
    drafts.set('service-days', null);
    edit((latest) => setWorkedDays(latest, days));
  };
  const draft = drafts.texts.value.get('service-days');
  const typed = typeof workedDays === 'number' || draft !== undefined;
  return (
    <fieldset class="service-days">
      <legend>{words.workedHow}</legend>
      <label class="choice">
        <input
          type="radio"
          name="worked-days"
          checked={workedDays === undefined && !typed}
          onChange={() => pick(undefined)}
        />
        <span class="choice-name">{words.untilBack}</span>
      </label>
      <label class="choice" data-quiet="true">
        <input type="radio" name="worked-days" checked={workedDays === null && !typed} onChange={() => pick(null)} />
        <span class="choice-name">{words.cannotTell}</span>
      </label>
      <label class="choice">
        <input type="radio" name="worked-days" checked={typed} onChange={() => pick(away)} />
        <span class="choice-name">{words.thatMany}</span>
      </label>
      <TypedField
        id="service-days"
        label={words.workedDays}
        hideLabel
        stored={typeof workedDays === 'number' ? String(workedDays) : ''}
        draft={draft}
        placeholder={String(away)}
        read={read}
        same={(text, stored) => text.trim() === stored}
        onText={(text, readable) => {
          drafts.set('service-days', readable ? null : text);
          if (readable && text.trim() !== '')
            edit((latest) => setWorkedDays(latest, Number(text.trim())), 'service-days');
        }}
      />
    </fieldset>
  );
}
