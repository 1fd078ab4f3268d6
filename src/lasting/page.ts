/** How long the shop's own repairs last, as one HTML document that needs nothing else: to look at, to print, to keep. */
import type { RemediesAnswer } from '../learning/answer.ts';
import { escapeHtml } from '../letter/escape.ts';
import { type LastingLanguage, lastingMessages, type Messages } from './messages/messages.ts';
import { LASTING_STYLE } from './page-style.ts';
import { legendOf, type RemedyTold, tellRelapses, tellRemedies } from './told.ts';

export interface LastingPage {
  readonly shop: string;
  readonly language: LastingLanguage;
  readonly locale: string;
  /** invented cards are counted */
  readonly invented: boolean;
}

const WIDTH = 700;

export function lastingHtml(answer: RemediesAnswer, { shop, language, locale, invented }: LastingPage): string {
  const messages = lastingMessages(language);
  const tongue = { messages, locale };
  const read = new Intl.NumberFormat(locale).format(answer.records);
  const facts = [
    messages.read(read) + (invented ? ` (${messages.invented})` : ''),
    ...(answer.silentUntil === null ? [] : [messages.silence(dayIn(answer.silentUntil, locale))]),
    messages.knowledge(answer.knowledge),
  ];
  const told = tellRemedies(answer, tongue);
  return `<!doctype html>
<html lang="${language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeHtml(`${shop}: ${messages.heading}`)}</title>
<style>${LASTING_STYLE}</style>
</head>
<body>
<main>
<header><p class="shop">${escapeHtml(shop)}</p><h1>${escapeHtml(messages.heading)}</h1></header>
${told.length === 0 ? empty(messages) : `<p>${escapeHtml(messages.lead)}</p>${told.map((one) => remedySection(one, messages)).join('\n')}${relapses(answer, messages, locale)}<p class="soft">${escapeHtml(messages.noTrial)}</p>`}
<footer>${facts.map((fact) => `<p>${escapeHtml(fact)}</p>`).join('')}</footer>
</main>
</body>
</html>
`;
}

const list = (items: readonly string[], className: string) =>
  items.length === 0
    ? ''
    : `<ul class="${className}">${items.map((item) => `<li>${escapeHtml(item)}</li>`).join('')}</ul>`;

function remedySection(told: RemedyTold, messages: Messages): string {
  return `<section><h2>${escapeHtml(told.name)}</h2>
${list(told.counts, 'counts')}
${told.doubt === null ? '' : `<p class="doubt">${escapeHtml(told.doubt)}</p>`}
${told.drawing === null ? '' : `<figure>${told.drawing(WIDTH)}<figcaption>${legend(told, messages)}</figcaption></figure>`}
${list(told.points, 'points')}
${told.drawing === null ? '' : `<p>${escapeHtml(told.law.says)}</p>`}
${list(told.notes, 'notes')}
${told.rows.length === 0 ? '' : table(told, messages)}
</section>`;
}

function legend(told: RemedyTold, messages: Messages): string {
  const items = legendOf(told, messages).map(({ key, says }) => `<li>${key} ${escapeHtml(says)}</li>`);
  return `<ul class="legend">${items.join('')}</ul>`;
}

function table(told: RemedyTold, { table: words }: Messages): string {
  const columns = [words.day, words.followed, words.failed, words.lost, words.working, words.limits];
  return `<table><caption>${escapeHtml(`${words.title}: ${told.name}`)}</caption>
<thead><tr>${columns.map((name) => `<th scope="col">${escapeHtml(name)}</th>`).join('')}</tr></thead>
<tbody>${told.rows
    .map(
      ([day, ...cells]) =>
        `<tr><th scope="row">${escapeHtml(day!)}</th>${cells.map((cell) => `<td>${escapeHtml(cell)}</td>`).join('')}</tr>`,
    )
    .join('')}</tbody></table>`;
}

function relapses(answer: RemediesAnswer, messages: Messages, locale: string): string {
  const { relapse: words } = messages;
  const told = tellRelapses(answer, { messages, locale });
  const body =
    told.length === 0
      ? `<p>${escapeHtml(words.none)}</p>`
      : `<table><thead><tr>${[words.fault, words.book, words.learnt, words.seen].map((name) => `<th scope="col">${escapeHtml(name)}</th>`).join('')}</tr></thead>
<tbody>${told
          .map(
            ({ fault, after, book, learnt, seen, few }) =>
              `<tr><th scope="row">${escapeHtml(fault)}${after === null ? '' : `<br><small>${escapeHtml(after)}</small>`}</th><td>${escapeHtml(book)}</td><td>${escapeHtml(learnt)}</td><td>${escapeHtml(seen)}${few ? `<br><small>${escapeHtml(words.few)}</small>` : ''}</td></tr>`,
          )
          .join('')}</tbody></table>`;
  return `<section><h2>${escapeHtml(words.heading)}</h2><p>${escapeHtml(words.about)}</p>${body}</section>`;
}

function empty({ empty: words }: Messages): string {
  return `<h2>${escapeHtml(words.heading)}</h2><p>${escapeHtml(words.lead)}</p><ol>${words.way
    .map(({ name, does }) => `<li><b>${escapeHtml(name)}.</b> ${escapeHtml(does)}</li>`)
    .join('')}</ol><p>${escapeHtml(words.many)}</p>`;
}

const dayIn = (day: string, locale: string): string =>
  new Intl.DateTimeFormat(locale, { dateStyle: 'long', timeZone: 'UTC' }).format(new Date(day));
