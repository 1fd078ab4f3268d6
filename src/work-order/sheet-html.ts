/** The job sheet to print: boxes to tick, what to record, targets, cautions in full, and where two sides hold it, how; the screen always shows how. */
import { escapeHtml as e } from '../letter/escape.ts';
import type { OrderStep, WorkOrder } from './schema.ts';
import { type Paper, sheetStyle } from './sheet-style.ts';
import { bakeLines } from './sheet-text.ts';
import { sayMelting } from './solder-line.ts';

export { PAPERS, type Paper } from './sheet-style.ts';

const STAGE_NAMES: Readonly<Record<OrderStep['stage'], string>> = {
  prepare: 'Prepare',
  'take-off': 'Take off',
  'make-ready': 'Make ready',
  join: 'Join',
  clean: 'Clean',
  prove: 'Prove: resistance, then voltage, then image',
};

/** A whole page without scripts or anything to load. */
export function sheetHtml(order: WorkOrder, paper: Paper = 'a4'): string {
  const how = hasRoomForHow(order);
  const foot = `${order.record} · ${order.name}`;
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width,initial-scale=1">
<title>Job sheet: ${e(order.name)} · ${e(order.title)}</title><style>${sheetStyle(paper, foot)}</style></head>
<body><main class="page${how ? '' : ' brief'}">
<header><div><p class="kind">Job sheet${order.shop ? ` · ${e(order.shop)}` : ''}</p><h1>${e(order.name)}</h1><p>${e(order.title)}${order.invented ? ' <b class="invented">an invented card</b>' : ''}</p></div>
<dl><div><dt>Card</dt><dd>${e(order.record)}</dd></div><div><dt>By</dt><dd class="blank"></dd></div><div><dt>Date</dt><dd class="blank"></dd></div><div><dt>Rules</dt><dd>${e(order.knowledge)}</dd></div></dl></header>
${order.warnings.length > 0 ? `<section class="warnings">${order.warnings.map((text) => `<p>${e(text)}</p>`).join('')}</section>` : ''}
<section class="facts">${factsOf(order)}</section>
<section class="hold"><h2>Hold points <small>each opens only when the one before it is recorded; a failed one stops the work: put it right and look again, unless it says otherwise</small></h2>
<ol>${order.steps.map((step, i) => stepOf(order, step, order.steps[i - 1])).join('\n')}</ol></section>
${order.notes.length > 0 ? `<section class="notes"><h2>To bear in mind</h2><p>${order.notes.map(({ text, from }) => marked(e(text), from)).join(' ')}</p></section>` : ''}
<section class="cautions"><h2>Cautions</h2><ul>${order.cautions.map(({ text }) => `<li>${e(text)}</li>`).join('')}</ul></section>
<section class="done"><span class="box"></span> The card works <span class="box"></span> It does not <span class="blank">Signed</span></section>
<footer>† common practice, no source · ‡ estimate · the standards of bake and profile are quoted, not reprinted: where they, the makers’ limits or local codes differ, they decide</footer>
</main></body></html>
`;
}

/** What has no source carries a mark, explained at the foot. */
function marked(text: string, from: string): string {
  if (from.startsWith('common practice')) return `${text}†`;
  return from.startsWith('estimate') ? `${text}‡` : `${text} <small>(${e(from)})</small>`;
}

function factsOf({ solder, bake, heat, targets, equipment, parts }: WorkOrder): string {
  const block = (name: string, ...lines: string[]) =>
    `<div><h2>${name}</h2>${lines.map((line) => `<p>${line}</p>`).join('')}</div>`;
  const needs = [...equipment, ...parts].map(({ name }) => e(name)).join(', ');
  return [
    block(
      'Solder',
      solder ? `<b>${e(solder.alloy)}</b>, ${sayMelting(solder)}` : 'No joints of a package are melted.',
      ...(solder?.words.map(e) ?? []),
      `Needs: ${needs || 'nothing besides the usual'}.`,
    ),
    block('Bake', bakeLines(bake).map(e).join(' ')),
    heat
      ? `<div><h2>Heat left</h2>${heat.allowances
          .map(
            ({ name, most, spent, takes, leftAfter }) =>
              `<p>${e(name)}: ${spent} of ${most} spent, takes ${takes}, <b>${leftAfter < 0 ? `${-leftAfter} beyond` : `${leftAfter} left`}</b></p>`,
          )
          .join('')}<p>${e(heat.words[0]!)}</p></div>`
      : block('Heat left', 'No package is brought to melting: the heat budget is not touched.'),
    targets
      ? `<div><h2>Profile targets</h2><table>${targets.rows.map(({ name, limit }) => `<tr><th>${e(name)}</th><td>${e(limit)}</td></tr>`).join('')}</table><p>${e(targets.window)}. ${targets.words.map(e).join(' ')}</p></div>`
      : '',
  ].join('');
}

function stepOf(order: WorkOrder, step: OrderStep, before: OrderStep | undefined): string {
  const now = order.state.steps.find((one) => one.step === step.id)!;
  const ticked =
    now.standing === 'passed' ? '✓' : now.standing === 'failed' ? '✗' : now.standing === 'left-out' ? '–' : '';
  const stage = step.stage === before?.stage ? '' : `<li class="stage">${e(STAGE_NAMES[step.stage])}</li>`;
  const to = step.ifItFails.to === null ? null : order.steps.find(({ id }) => id === step.ifItFails.to);
  const leads = { again: '', back: `If not: back to ${to?.number ?? '?'}.`, end: 'If not: stop, the work is over.' }[
    step.ifItFails.leads
  ];
  const figures = step.figures.map(({ text, from }) => marked(e(text), from)).join(', ');
  return `${stage}<li class="step"><span class="box">${ticked}</span><span class="number">${step.number}</span><div><b>${e(step.name)}</b>${step.power ? ` <i>power: ${step.power === 'limited' ? 'limited supply' : 'host'}</i>` : ''}
<p class="how">${step.howTo.map(e).join(' ')}</p><p>${e(step.passes)} <span class="leads">${leads}</span>${step.mayBeLeftOut ? ' <span class="leads">May be left out, with the reason.</span>' : ''}${figures ? ` <span class="leads">Figures: ${figures}.</span>` : ''}</p>
<p class="how">If not: ${e(step.ifItFails.say)}${step.mayBeLeftOut ? ` May be left out: ${e(step.mayBeLeftOut)}` : ''}</p>
<p class="record">${step.record.map((text) => `<span>${e(text)}<u></u></span>`).join('')}</p></div></li>`;
}

/** Letters that two sides of A4 hold in this type, as measured over every remedy; beyond, how each step is done is left to the screen. */
const LETTERS_ON_TWO_SIDES = 9_000;

/** Whether how each step is done fits on two sides, too. */
function hasRoomForHow({ steps, cautions, notes, warnings, bake, targets }: WorkOrder): boolean {
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
    ...bakeLines(bake),
    ...(targets?.words ?? []),
  ];
  return letters.reduce((sum, text) => sum + text.length, 40 * steps.length) <= LETTERS_ON_TWO_SIDES;
}
