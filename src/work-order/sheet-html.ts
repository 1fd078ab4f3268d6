/** The job sheet to print: boxes to tick, what to record, targets, cautions in full, and where two sides hold it, how; the screen always shows how. */
import { escapeHtml as e } from '../letter/escape.ts';
import { orderMessages } from './messages/messages.ts';
import type { OrderStep, WorkOrder } from './schema.ts';
import { type Paper, sheetStyle } from './sheet-style.ts';
import { bakeLines, ballLines, sayMelting } from './sheet-text.ts';

export { PAPERS, type Paper } from './sheet-style.ts';

/** A whole page without scripts or anything to load. */
export function sheetHtml(order: WorkOrder, paper: Paper = 'a4'): string {
  const how = hasRoomForHow(order);
  const foot = `${order.record} · ${order.name}`;
  const { sheet: words } = orderMessages(order.language);
  return `<!doctype html>
<html lang="${e(order.language)}"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width,initial-scale=1">
<title>${e(words.name)}: ${e(order.name)} · ${e(order.title)}</title><style>${sheetStyle(paper, foot)}</style></head>
<body><main class="page${how ? '' : ' brief'}">
<header><div><p class="kind">${e(words.name)}${order.shop ? ` · ${e(order.shop)}` : ''}</p><h1>${e(order.name)}</h1><p>${e(order.title)}${order.invented ? ` <b class="invented">${e(words.invented)}</b>` : ''}</p></div>
<dl><div><dt>${e(words.card)}</dt><dd>${e(order.record)}</dd></div><div><dt>${e(words.by)}</dt><dd class="blank"></dd></div><div><dt>${e(words.date)}</dt><dd class="blank"></dd></div><div><dt>${e(words.rules)}</dt><dd>${e(order.knowledge)}</dd></div></dl></header>
${order.warnings.length > 0 ? `<section class="warnings">${order.warnings.map((text) => `<p>${e(text)}</p>`).join('')}</section>` : ''}
<section class="facts">${factsOf(order)}</section>
${ballsOf(order)}<section class="hold"><h2>${e(words.holdPoints)} <small>${e(words.eachOpens)}; ${e(words.failedStops)}</small></h2>
<ol>${order.steps.map((step, i) => stepOf(order, step, order.steps[i - 1])).join('\n')}</ol></section>
${order.notes.length > 0 ? `<section class="notes"><h2>${e(words.toMind)}</h2><p>${order.notes.map(marked).join(' ')}</p></section>` : ''}
<section class="cautions"><h2>${e(words.cautions)}</h2><ul>${order.cautions.map(({ text }) => `<li>${e(text)}</li>`).join('')}</ul></section>
<section class="done"><span class="box"></span> ${e(words.works)} <span class="box"></span> ${e(words.doesNot)} <span class="blank">${e(words.signed)}</span></section>
<footer>${e(words.foot)}</footer>
</main></body></html>
`;
}

/** What has no source carries a mark, explained at the foot. */
function marked({ text, from, basis }: OrderStep['figures'][number]): string {
  if (basis === 'practice') return `${e(text)}†`;
  return basis === 'estimate' ? `${e(text)}‡` : `${e(text)} <small>(${e(from)})</small>`;
}

function factsOf({ language, solder, bake, heat, targets, equipment, parts }: WorkOrder): string {
  const { sheet: words, solder: solderWords, heat: heatWords } = orderMessages(language);
  const block = (name: string, ...lines: string[]) =>
    `<div><h2>${name}</h2>${lines.map((line) => `<p>${line}</p>`).join('')}</div>`;
  const needs = [...equipment, ...parts].map(({ name }) => e(name)).join(', ');
  return [
    block(
      words.solder,
      solder ? `<b>${e(solder.alloy)}</b>, ${e(sayMelting(language, solder))}` : e(solderWords.none),
      ...(solder?.words.map(e) ?? []),
      `${words.needs}: ${needs || words.nothingNeeded}.`,
    ),
    block(words.bake, bakeLines(language, bake).map(e).join(' ')),
    heat
      ? `<div><h2>${words.heatLeft}</h2>${heat.allowances
          .map(
            ({ name, most, spent, takes, leftAfter }) =>
              `<p>${e(heatWords.spent(name, spent, most, takes))}, <b>${leftAfter < 0 ? heatWords.beyond(-leftAfter) : heatWords.left(leftAfter)}</b></p>`,
          )
          .join('')}<p>${e(heat.words[0]!)}</p></div>`
      : block(words.heatLeft, heatWords.untouched),
    targets
      ? `<div><h2>${words.targets}</h2><table>${targets.rows.map(({ name, limit }) => `<tr><th>${e(name)}</th><td>${e(limit)}</td></tr>`).join('')}</table><p>${e(targets.window)}. ${targets.words.map(e).join(' ')}</p></div>`
      : '',
  ].join('');
}

/** What was measured of the balls and what becomes of them, part by part; else blanks to write on. */
function ballsOf({ language, balls }: WorkOrder): string {
  if (balls === null) return '';
  const { sheet: words } = orderMessages(language);
  const { joint } = balls;
  const heading = `<h2>${e(words.balls)}: ${e(balls.name)}</h2>`;
  const [first, ...rest] = ballLines(language, balls);
  if (joint === null)
    return `<section class="notes balls">${heading}<p>${e(first)} ${rest.map(e).join(' ')}</p></section>\n`;
  const problems = joint.problems.map(({ wrong, todo }) => `<p><b>${e(wrong)}</b> ${e(todo)}</p>`).join('');
  const parts = joint.words.map(({ heading: part, lines }) => `<p><b>${e(part)}.</b> ${lines.map(e).join(' ')}</p>`);
  return `<section class="notes balls">${heading}<p>${e(first)}</p>${problems}${parts.join('')}</section>\n`;
}

function stepOf(order: WorkOrder, step: OrderStep, before: OrderStep | undefined): string {
  const { sheet: words } = orderMessages(order.language);
  const now = order.state.steps.find((one) => one.step === step.id)!;
  const ticked =
    now.standing === 'passed' ? '✓' : now.standing === 'failed' ? '✗' : now.standing === 'left-out' ? '–' : '';
  const stage = step.stage === before?.stage ? '' : `<li class="stage">${e(words.stages[step.stage])}</li>`;
  const to = step.ifItFails.to === null ? null : order.steps.find(({ id }) => id === step.ifItFails.to);
  const leads = {
    again: '',
    back: `${words.ifNot}: ${words.backTo(String(to?.number ?? '?'))}`,
    end: `${words.ifNot}: ${words.over}`,
  }[step.ifItFails.leads];
  const figures = step.figures.map(marked).join(', ');
  return `${stage}<li class="step"><span class="box">${ticked}</span><span class="number">${step.number}</span><div><b>${e(step.name)}</b>${step.power ? ` <i>${words.power[step.power]}</i>` : ''}
<p class="how">${step.howTo.map(e).join(' ')}</p><p>${e(step.passes)} <span class="leads">${leads}</span>${step.mayBeLeftOut ? ` <span class="leads">${words.withReason}</span>` : ''}${figures ? ` <span class="leads">${words.figures}: ${figures}.</span>` : ''}</p>
<p class="how">${words.ifNot}: ${e(step.ifItFails.say)}${step.mayBeLeftOut ? ` ${words.mayBeLeftOut}: ${e(step.mayBeLeftOut)}` : ''}</p>
<p class="record">${step.record.map((text) => `<span>${e(text)}<u></u></span>`).join('')}</p></div></li>`;
}

/** Letters that two sides of A4 hold in this type, as measured over every remedy; beyond, how each step is done is left to the screen. */
const LETTERS_ON_TWO_SIDES = 9_000;

/** Whether how each step is done fits on two sides, too. */
function hasRoomForHow({ steps, cautions, notes, warnings, bake, balls, targets, language }: WorkOrder): boolean {
  const letters = [
    ...steps.flatMap(({ name, passes, record, howTo, ifItFails, figures }) => [
      ...[name, passes, ...howTo, ifItFails.say],
      // a blank takes as much room as the words before it
      ...record.flatMap((text) => [text, text]),
      ...figures.flatMap(({ text, from }) => [text, from]),
    ]),
    ...cautions.map(({ text }) => text),
    ...notes.map(({ text }) => text),
    ...warnings,
    ...bakeLines(language, bake),
    ...(balls ? ballLines(language, balls) : []),
    ...(targets?.words ?? []),
  ];
  return letters.reduce((sum, text) => sum + text.length, 40 * steps.length) <= LETTERS_ON_TWO_SIDES;
}
