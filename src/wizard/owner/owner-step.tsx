/** The last step: the page the owner takes home, with the price and the paper it is printed with. */
import { useMemo, useRef, useState } from 'preact/hooks';
import type { Assessment } from '../../assessment.ts';
import { letterHtml } from '../../letter/html.ts';
import { type Tellable, writeLetter } from '../../letter/letter.ts';
import type { Letter } from '../../letter/schema.ts';
import { openQuote } from '../../record/quote.ts';
import type { Catalogue } from '../catalogue.ts';
import { type Desk, isBlank } from '../desk.ts';
import { BadRecordNotice, ContradictionNotice } from '../frame/in-place.tsx';
import { jumpTo } from '../frame/jump.ts';
import { LANGUAGES, type Language, language, messages } from '../language.ts';
import type { OwnerWords } from '../messages/owner-en.ts';
import { useSession } from '../session.ts';
import type { Manner } from '../words.ts';
import { askingOf, readPrice } from './asking.ts';
import { chooseOwnerLanguage, choosePaper, chosenLanguage, chosenPaper, PAPERS, type Paper } from './page-choice.ts';
import { Preview } from './preview.tsx';
import { PRICE_FIELD, PriceChoice } from './price-choice.tsx';
import { quotePrice, withdrawQuote } from './quote.ts';
import { saveAsFile } from './save-as-file.ts';
import { useTold } from './use-told.ts';
import { ownerWords } from './words.ts';
import '../look/owner.css';

export interface OwnerStepProps {
  readonly desk: Desk;
  readonly catalogue: Catalogue;
}

export function OwnerStep({ desk, catalogue }: OwnerStepProps) {
  const session = useSession();
  const { assessment } = session.adviser.advice.value;
  const said = ownerWords.value;
  if (isBlank(desk.record)) {
    return (
      <>
        <p class="lead">{said.blank}</p>
        <button type="button" onClick={() => jumpTo(session, 'card')}>
          {said.toFirstStep}
        </button>
      </>
    );
  }
  if (assessment === null) return <p class="waiting">{messages.value.notices.weighing}</p>;
  if (assessment.kind === 'bad-record') {
    return (
      <>
        <p class="lead">{said.unreadable}</p>
        <BadRecordNotice bad={assessment} catalogue={catalogue} />
      </>
    );
  }
  return (
    <>
      {assessment.kind === 'contradiction' && <ContradictionNotice contradiction={assessment} catalogue={catalogue} />}
      <Page assessment={assessment} desk={desk} catalogue={catalogue} />
    </>
  );
}

/** The day where the bench stands, ISO. */
const today = (): string => new Date().toLocaleDateString('sv');

function Page({ assessment, desk, catalogue }: OwnerStepProps & { readonly assessment: Tellable }) {
  const { drafts, edit } = useSession();
  const said = ownerWords.value;
  const { shop } = catalogue;
  const { record } = desk;
  const frame = useRef<HTMLIFrameElement>(null);
  const [pageLanguage, setPageLanguage] = useState<Language>(chosenLanguage() ?? language.value);
  const [paper, setPaper] = useState<Paper | undefined>(chosenPaper);
  const typed = readPrice(drafts.texts.value.get(PRICE_FIELD) ?? '', said.oneFigure);
  const price = typed.kind === 'price' ? typed.price : undefined;
  const told = useTold(assessment, catalogue, record, pageLanguage);
  const letter = useMemo(
    () =>
      writeLetter(told.assessment, {
        shop,
        words: told.words,
        today: today(),
        record,
        price,
        paper,
        language: told.language,
      }),
    [told.assessment, told.words, told.language, shop, record, price, paper],
  );
  const html = useMemo(() => letterHtml(letter), [letter]);
  const asking = assessment.kind === 'assessed' ? askingOf(assessment) : null;
  // the page may be in the owner's language; what is said of the price is for whoever works here
  const { warnings } =
    told.assessment === assessment && told.language === language.value
      ? letter
      : writeLetter(assessment, {
          shop,
          words: catalogue.owner,
          today: today(),
          record,
          price,
          language: language.value,
        });
  const manner: Manner = { locale: shop.locale, currency: shop.currency };
  const ready = (asking === null || typed.kind !== 'unreadable') && !told.coming;
  return (
    <div class="owner-page">
      <div class="owner-choices">
        <Outcome letter={letter} assessment={assessment} />
        {asking === null ? (
          <p class="about">{whyNoPrice(assessment, said)}</p>
        ) : (
          <PriceChoice
            asking={asking}
            typed={typed}
            quote={openQuote(record)}
            onQuote={(asked) =>
              edit((open, at) => quotePrice(open, { option: asking.option.id, price: asked, today: today() }, shop, at))
            }
            onWithdraw={() => edit(withdrawQuote)}
            warnings={warnings}
            manner={manner}
          />
        )}
        <fieldset class="owner-pick" data-question>
          <legend>{said.language}</legend>
          <div class="choices">
            {LANGUAGES.map((one) => (
              <label class="choice" key={one}>
                <input
                  type="radio"
                  name="owner-language"
                  checked={pageLanguage === one}
                  onChange={() => {
                    setPageLanguage(one);
                    chooseOwnerLanguage(one);
                  }}
                />
                <span class="choice-name" lang={one}>
                  {said.languages[one]}
                </span>
              </label>
            ))}
          </div>
        </fieldset>
        <fieldset class="owner-pick" data-question>
          <legend>{said.paper}</legend>
          <div class="choices">
            {PAPERS.map((one) => (
              <label class="choice" key={one}>
                <input
                  type="radio"
                  name="owner-paper"
                  checked={letter.paper === one}
                  onChange={() => {
                    setPaper(one);
                    choosePaper(one);
                  }}
                />
                <span class="choice-name">{said.papers[one]}</span>
              </label>
            ))}
          </div>
        </fieldset>
        <p class="owner-deeds">
          <button type="button" class="main" disabled={!ready} onClick={() => print(frame.current)}>
            {said.print}
          </button>
          <button type="button" disabled={!ready} onClick={() => saveAsFile(`${record.id}-${pageLanguage}.html`, html)}>
            {said.save}
          </button>
        </p>
        {typed.kind === 'unreadable' && asking !== null && <p class="about">{said.priceFirst}</p>}
        <p class="about" role="status">
          {told.coming && said.languageComes(said.languages[pageLanguage])}
        </p>
      </div>
      <Preview html={html} paper={letter.paper} frame={frame} />
    </div>
  );
}

function print(frame: HTMLIFrameElement | null): void {
  const page = frame?.contentWindow;
  if (!page) return;
  page.focus();
  page.print();
}

function whyNoPrice(
  assessment: Exclude<Assessment, { kind: 'bad-record' }>,
  { ownStock, nothingSold, noVerdict }: OwnerWords,
) {
  if (assessment.kind === 'contradiction') return noVerdict;
  return assessment.ownStock ? ownStock : nothingSold;
}

/** What kind of page it has become, where that is not the plain case. */
function Outcome({ letter, assessment }: { letter: Letter; assessment: Tellable }) {
  const session = useSession();
  const said = ownerWords.value;
  const firm = assessment.kind !== 'assessed' || assessment.sensitivity !== undefined;
  return (
    <>
      {letter.outcome === 'check-first' && (
        <p class="owner-outcome">
          {said.checkFirst}{' '}
          <button type="button" class="quiet" onClick={() => jumpTo(session, 'next')}>
            {messages.value.steps.names.next}
          </button>
        </p>
      )}
      {!firm && <p class="owner-outcome waiting">{said.rangesCome}</p>}
    </>
  );
}
