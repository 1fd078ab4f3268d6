/** A letter as plain text, for a terminal or a mail. */
import { type Messages, messagesIn } from './messages/messages.ts';
import { sayLeads } from './next-check.ts';
import { afterWorkHeading, afterWorkLead, kindOf } from './page-kind.ts';
import type { Choice, Letter } from './schema.ts';

const WIDTH = 96;

export function letterText(letter: Letter): string {
  const messages = messagesIn(letter.language);
  const { headings } = messages;
  const cameIn = section(headings.cameIn, [letter.cameIn.join(' ')]);
  const afterWork = section(
    afterWorkHeading(letter, messages),
    letter.afterWork
      ? [
          `${afterWorkLead(letter.afterWork, messages)}: ${letter.afterWork.what.text}. ${letter.afterWork.sentences.join(' ')}`,
          ...(letter.afterWork.plainly ? [letter.afterWork.plainly] : []),
          ...bullets(letter.afterWork.reasons.map(({ sentence }) => sentence)),
          ...(letter.afterWork.again.length > 0 ? [letter.afterWork.again.join(' ')] : []),
        ]
      : [],
  );
  const parts = [
    head(letter, messages),
    section(headings.advice, [letter.title, ...(letter.advised ? [letter.advised.text] : []), ...letter.lead]),
    ...(letter.afterWork?.failed ? [afterWork, cameIn] : [cameIn, afterWork]),
    section(headings.found, [
      ...letter.found.items.map(
        ({ what, state, abnormal }) => `- ${what.text}: ${state.text}${abnormal ? ` (${messages.found.unusual})` : ''}`,
      ),
      ...(letter.found.others ? [letter.found.others] : []),
    ]),
    section(letter.outcome === 'return' ? headings.likelyElsewhere : headings.likely, [
      ...letter.causes.map(
        ({ what, sure, count, range }, at) =>
          `${at + 1}. ${sure}, ${count.text}${range ? ` (${range.text})` : ''}: ${what.text}`,
      ),
      ...letter.causesNote,
    ]),
    section(
      letter.ownStock
        ? headings.choicesOwnStock
        : letter.outcome === 'check-first'
          ? headings.choicesNow
          : headings.choices,
      letter.choices.flatMap((choice) => choiceLines(choice, letter, messages)),
    ),
    section(headings.next, letter.next ? [letter.next.sentences.join(' '), ...bullets(sayLeads(letter.next))] : []),
    section(headings.why, bullets(letter.why)),
    section(headings.changes, bullets(letter.changes)),
    section(headings.ruledOut, bullets(letter.ruledOut.map(({ reason }) => reason.text))),
    section(headings.rests, bullets(letter.rests)),
    section(headings.cautions, bullets(letter.cautions.map(({ what }) => what.text))),
    section(letter.ownStock ? headings.consentOwnStock : headings.consent, [
      letter.consent.intro,
      ...letter.consent.boxes.map((box) => `[ ] ${box}`),
      ...(letter.consent.sign
        ? ['', `${messages.consent.date}: ____________  ${messages.consent.signature}: ________________________`]
        : []),
    ]),
    foot(letter, messages),
  ];
  return parts.filter((part) => part !== '').join('\n\n');
}

function head(letter: Letter, messages: Messages): string {
  const { page } = messages;
  const reference = [
    `${page.number} ${letter.record}`,
    `${page.date} ${letter.date.text}`,
    ...(letter.validUntil ? [`${page.validUntil} ${letter.validUntil.text}`] : []),
  ].join(' · ');
  return [
    letter.shop,
    kindOf(letter, messages),
    letter.cardTitle,
    reference,
    ...(letter.invented ? [page.inventedMark] : []),
  ].join('\n');
}

function foot(letter: Letter, { page }: Messages): string {
  return [
    ...(letter.invented ? [page.invented] : []),
    ...(letter.languageNote ? [letter.languageNote] : []),
    ...(letter.knowledge ? [page.basis(letter.knowledge)] : []),
  ].join('\n');
}

function choiceLines(choice: Choice, letter: Letter, { columns }: Messages): string[] {
  const tag = choice.advised
    ? ` [${letter.outcome === 'check-first' ? columns.bestToday : columns.advised}]`
    : choice.worthIt
      ? ''
      : ` [${columns.notWorthIt}]`;
  const figures = [
    ...(letter.ownStock ? [] : [`${columns.price}: ${choice.price.text}`]),
    ...(choice.works ? [`${columns.works}: ${choice.works.text}`] : []),
    ...(choice.holds ? [`${columns.holds(letter.horizon?.text ?? '')}: ${choice.holds.text}`] : []),
    `${columns.ifItFails}: ${choice.ifItFails}`,
  ];
  return [
    `- ${choice.what.text}${tag}${choice.note ? ` (${choice.note})` : ''}`,
    ...figures.map((line) => `    ${line}`),
  ];
}

const bullets = (items: readonly string[]) => items.map((item) => `- ${item}`);

function section(heading: string, lines: readonly string[]): string {
  if (lines.length === 0) return '';
  return [heading.toUpperCase(), ...lines.flatMap(wrapped)].join('\n');
}

/** Breaks a line at spaces; what follows is indented as far as the line itself was, past a bullet. */
function wrapped(line: string): string[] {
  const indent = /^ *(?:- |\d\. |\[ \] )?/.exec(line)![0].length;
  const lines: string[] = [];
  let rest = line;
  while (rest.length > WIDTH) {
    const at = rest.lastIndexOf(' ', WIDTH);
    if (at <= indent) break;
    lines.push(rest.slice(0, at));
    rest = ' '.repeat(indent) + rest.slice(at + 1);
  }
  return [...lines, rest];
}
