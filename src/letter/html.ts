/** A letter as one HTML document that needs nothing else: to look at, to print, to keep. */
import { drawCard } from './card-drawing.ts';
import { escapeHtml } from './escape.ts';
import { drawHundred, drawOne } from './hundred.ts';
import { type Messages, messagesIn } from './messages/messages.ts';
import { sayLeads } from './next-check.ts';
import { afterWorkHeading, afterWorkLead, kindOf } from './page-kind.ts';
import { pointsFor } from './page-size.ts';
import { styleFor } from './page-style.ts';
import type { Choice, Letter, Wording } from './schema.ts';

export function letterHtml(letter: Letter): string {
  const messages = messagesIn(letter.language);
  const words = wordsOf(letter);
  return `<!doctype html>
<html lang="${letter.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeHtml(`${letter.shop}: ${letter.title} (${letter.record})`)}</title>
<style>${styleFor(letter.paper, pointsFor(letter))}</style>
</head>
<body>
<main class="page" data-outcome="${letter.outcome}">
${[
  head(letter, messages),
  advice(letter, messages, words),
  looked(letter, messages, words),
  choices(letter, messages, words),
  reasons(letter, messages, words),
  consent(letter, messages),
  foot(letter, messages),
]
  .filter((part) => part !== '')
  .join('\n')}
</main>
</body>
</html>
`;
}

/** Marks a wording that is not in the language of the page. */
function wordsOf(letter: Letter): (wording: Wording) => string {
  return ({ text, language }) =>
    language === letter.language ? escapeHtml(text) : `<span lang="${escapeHtml(language)}">${escapeHtml(text)}</span>`;
}
type Words = ReturnType<typeof wordsOf>;

const paragraphs = (sentences: readonly string[]) => sentences.map((one) => `<p>${escapeHtml(one)}</p>`).join('');
const list = (items: readonly string[], className = '') =>
  items.length === 0
    ? ''
    : `<ul${className ? ` class="${className}"` : ''}>${items.map((one) => `<li>${one}</li>`).join('')}</ul>`;
const section = (className: string, heading: string, body: string) =>
  body === '' ? '' : `<section class="${className}"><h2>${escapeHtml(heading)}</h2>${body}</section>`;

function head(letter: Letter, messages: Messages): string {
  const { page } = messages;
  const rows: [string, string][] = [
    [page.number, letter.record],
    [page.date, letter.date.text],
    ...(letter.validUntil ? [[page.validUntil, letter.validUntil.text] as [string, string]] : []),
  ];
  return `<header><div><p class="shop">${escapeHtml(letter.shop)}</p><p class="kind">${escapeHtml(kindOf(letter, messages))}</p><p class="card-title">${escapeHtml(letter.cardTitle)}</p></div>
<div class="reference">${letter.invented ? `<p class="invented">${escapeHtml(page.inventedMark)}</p>` : ''}<dl>${rows.map(([name, value]) => `<div><dt>${escapeHtml(name)}</dt><dd>${escapeHtml(value)}</dd></div>`).join('')}</dl></div></header>`;
}

function advice(letter: Letter, messages: Messages, words: Words): string {
  const parts = letter.outOf100;
  const picture = parts
    ? `<figure><figcaption><b>${escapeHtml(parts.title)}</b>${drawHundred(parts)}<ul class="legend"><li>${drawOne('holds')}${escapeHtml(parts.legend.holds)}</li><li>${drawOne('fails-again')}${escapeHtml(parts.legend.failsAgain)}</li><li>${drawOne('fails')}${escapeHtml(parts.legend.fails)}</li></ul></figcaption></figure>`
    : '';
  return `<section class="advice"><div><p class="eyebrow">${escapeHtml(messages.headings.advice)}</p><h1>${escapeHtml(letter.title)}</h1>${letter.advised ? `<p class="advised">${words(letter.advised)}</p>` : ''}${paragraphs(letter.lead)}</div>${picture}</section>`;
}

function looked(letter: Letter, messages: Messages, words: Words): string {
  const { headings } = messages;
  const found = list(
    letter.found.items.map(
      ({ what, state, abnormal }) => `${words(what)}: ${abnormal ? `<b>${words(state)}</b>` : words(state)}`,
    ),
    'found',
  );
  const work = letter.afterWork;
  const after = work
    ? section(
        'after-work',
        afterWorkHeading(letter, messages),
        `<p>${escapeHtml(afterWorkLead(work, messages))}: ${words(work.what)}. ${escapeHtml(work.sentences.join(' '))}</p>${work.plainly ? `<p><b>${escapeHtml(work.plainly)}</b></p>` : ''}${list(work.reasons.map(({ sentence }) => escapeHtml(sentence)))}${work.again.length > 0 ? `<p>${escapeHtml(work.again.join(' '))}</p>` : ''}`,
      )
    : '';
  const cameIn = section('came-in', headings.cameIn, `<p>${escapeHtml(letter.cameIn.join(' '))}</p>`);
  const rest = letter.found.others ? `<p>${escapeHtml(letter.found.others)}</p>` : '';
  const causes = letter.causes
    .map(({ what, sure, count, range }) => {
      const spread = range ? ` <span class="range">(${escapeHtml(range.text)})</span>` : '';
      return `<li><span class="sure">${escapeHtml(sure)}, ${escapeHtml(count.text)}</span>${spread}<br>${words(what)}</li>`;
    })
    .join('');
  const right =
    letter.causes.length > 0
      ? `<section class="likely"><h2>${escapeHtml(letter.outcome === 'return' ? headings.likelyElsewhere : headings.likely)}</h2><div class="likely-body"><div>${drawing(letter, messages)}<p class="darker">${escapeHtml(messages.drawing.darker)}${letter.causes.some(({ range }) => range && !range.saysLittle) ? ` ${escapeHtml(messages.drawing.brackets)}` : ''}</p></div><ol>${causes}</ol></div>${letter.causesNote.length > 0 ? `<p class="causes-note">${escapeHtml(letter.causesNote.join(' '))}</p>` : ''}</section>`
      : '';
  return `<div class="looked"><div>${work?.failed ? after + cameIn : cameIn + after}${section('found-section', headings.found, found + rest)}</div>${right}</div>`;
}

function drawing(letter: Letter, messages: Messages): string {
  const { ofHundred } = messages.count;
  const marks = new Map<string, string[]>();
  letter.causes.forEach(({ site }, at) => {
    marks.set(site, [...(marks.get(site) ?? []), String(at + 1)]);
  });
  return drawCard({
    title: messages.drawing.title,
    sites: letter.sites.map(({ site, chance }) => ({
      site,
      chance,
      title: messages.drawing.place(messages.sites[site], ofHundred(String(Math.round(100 * chance)))),
      mark: marks.get(site)?.join(' '),
    })),
  });
}

function choices(letter: Letter, messages: Messages, words: Words): string {
  if (letter.choices.length === 0) return '';
  const { columns, headings } = messages;
  const own = letter.ownStock;
  const names = [
    columns.choice,
    ...(own ? [] : [columns.price]),
    columns.works,
    columns.holds(letter.horizon?.text ?? ''),
    columns.ifItFails,
  ];
  const tag = (choice: Choice) => {
    if (choice.advised)
      return `<span class="tag">${escapeHtml(letter.outcome === 'check-first' ? columns.bestToday : columns.advised)}</span> `;
    return choice.worthIt ? '' : `<span class="tag not">${escapeHtml(columns.notWorthIt)}</span> `;
  };
  const row = (choice: Choice) =>
    `<tr${choice.advised ? ' class="advised-row"' : ''}><th scope="row">${tag(choice)}${words(choice.what)}${choice.note ? ` <small>${escapeHtml(choice.note)}</small>` : ''}</th>${own ? '' : `<td>${escapeHtml(choice.price.text)}</td>`}<td>${cell(choice.works?.text)}</td><td>${cell(choice.holds?.text)}</td><td>${escapeHtml(choice.ifItFails)}</td></tr>`;
  return `<section class="choices"><h2>${escapeHtml(own ? headings.choicesOwnStock : letter.outcome === 'check-first' ? headings.choicesNow : headings.choices)}</h2><table><colgroup><col class="c-what">${own ? '' : '<col class="c-price">'}<col class="c-works"><col class="c-holds"><col></colgroup><thead><tr>${names.map((name) => `<th scope="col">${escapeHtml(name)}</th>`).join('')}</tr></thead><tbody>${letter.choices.map(row).join('')}</tbody></table></section>`;
}

const cell = (text: string | undefined) => (text === undefined ? '<span aria-label="-">–</span>' : escapeHtml(text));

function reasons(letter: Letter, messages: Messages, words: Words): string {
  const { headings } = messages;
  const next = letter.next
    ? section(
        'next',
        headings.next,
        `<p>${escapeHtml(letter.next.sentences.join(' '))}</p>${list(sayLeads(letter.next).map(escapeHtml))}`,
      )
    : '';
  const left =
    next +
    section('why', headings.why, list(letter.why.map(escapeHtml))) +
    section('changes', headings.changes, list(letter.changes.map(escapeHtml)));
  const right =
    section('ruled-out', headings.ruledOut, list(letter.ruledOut.map(({ reason }) => words(reason)))) +
    section('rests', headings.rests, list(letter.rests.map(escapeHtml))) +
    section('cautions', headings.cautions, list(letter.cautions.map(({ what }) => words(what))));
  return `<div class="reasons">${left}${right}</div>`;
}

function consent(letter: Letter, messages: Messages): string {
  const { intro, boxes, sign } = letter.consent;
  const ticks = boxes.map((box) => `<li><span class="box" aria-hidden="true"></span>${escapeHtml(box)}</li>`).join('');
  const lines = sign
    ? `<p class="lines"><span>${escapeHtml(messages.consent.date)}</span><span>${escapeHtml(messages.consent.signature)}</span></p>`
    : '';
  const heading = letter.ownStock ? messages.headings.consentOwnStock : messages.headings.consent;
  return section(
    'consent',
    heading,
    `<p>${escapeHtml(intro)}${sign ? ` ${escapeHtml(messages.consent.phone)}` : ''}</p>${ticks ? `<ul class="boxes">${ticks}</ul>` : ''}${lines}`,
  );
}

function foot(letter: Letter, { page }: Messages): string {
  const parts = [
    letter.invented ? page.invented : null,
    letter.languageNote,
    letter.knowledge ? page.basis(letter.knowledge) : null,
  ].filter((part) => part !== null);
  return parts.length === 0 ? '' : `<footer><p>${parts.map(escapeHtml).join(' ')}</p></footer>`;
}
