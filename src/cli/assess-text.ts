/** An assessment as text for a terminal: the same value that `--json` prints. */
import { styleText } from 'node:util';
import { lower } from '../assess/verdict.ts';
import { type Words, wordsFor } from '../assess/words.ts';
import type { Assessed, Assessment, CheckAdvice, Option, RankedFault } from '../assessment.ts';

const CAUSES_SHOWN = 6;
const EVIDENCE_SHOWN = 3;
const OPTIONS_SHOWN = 8;
const CLOSED_SHOWN = 6;
/** Findings that fit each other worse than this many bits are worth a second look. */
const STRAIN_SAID = 2;
/** A finding below this many decibels is not worth a word (Good: one decibel is about the least a person notices). */
const LEAST_DECIBELS = 1;

const strong = (words: string) => styleText('bold', words, { stream: process.stdout });
const quiet = (words: string) => styleText('dim', words, { stream: process.stdout });
const good = (words: string) => styleText('green', words, { stream: process.stdout });
const warm = (words: string) => styleText('yellow', words, { stream: process.stdout });

export function assessmentText(assessment: Assessment, locale: string): string {
  switch (assessment.kind) {
    case 'bad-record':
      return assessment.issues.map((issue) => `${issue.path || 'the record'}: ${issue.wrong} ${issue.todo}`).join('\n');
    case 'contradiction':
      return [strong(assessment.title), warm('The findings contradict each other.'), assessment.sentence].join('\n');
    case 'assessed':
      return assessedText(assessment, wordsFor(locale, assessment.currency));
  }
}

function assessedText(assessed: Assessed, say: Words): string {
  return [
    strong(assessed.title) + (assessed.invented ? quiet('  (an invented card)') : ''),
    '',
    ...verdictLines(assessed, say),
    '',
    ...nextLines(assessed, say),
    '',
    ...comebackLines(assessed, say),
    ...causeLines(assessed, say),
    '',
    ...optionLines(assessed, say),
    '',
    ...firmnessLines(assessed, say),
    ...cautionLines(assessed),
    quiet(`Knowledge ${assessed.knowledge}. Figures are estimates, not promises.`),
  ].join('\n');
}

export function verdictLines(assessed: Assessed, say: Words): string[] {
  const verdict = assessed.verdict;
  const option = assessed.options.find((known) => known.id === verdict.option);
  const inPencil = assessed.next.kind === 'check';
  const work = verdict.kind !== 'return' && verdict.kind !== 'scrap';
  const stamp = !work ? '' : verdict.justified ? good('  justified') : warm('  not justified');
  const head = `${strong(inPencil ? 'So far' : 'Verdict')}${inPencil ? '    ' : '   '}${strong(verdict.name)}  ${quiet(`[${verdict.kind}]`)}${stamp}`;
  const lines = [
    head,
    ...(inPencil ? [quiet('          (if you had to decide now; a check is still worth its minutes)')] : []),
    `          ${verdict.because}`,
  ];
  if (option) lines.push(`          ${optionFigures(option, say)}`);
  for (const reason of verdict.reasons) lines.push(`          - ${reason}`);
  for (const even of verdict.breakEvens) if (even.at !== null) lines.push(`          ~ ${even.sentence}`);
  return lines;
}

function optionFigures(option: Option, say: Words): string {
  const parts = [
    `works ${say.ofHundred(option.works)}`,
    `holds ${say.ofHundred(option.holds)}`,
    `costs ${say.money(option.cost.total)}`,
    `surplus ${say.money(option.surplus)}`,
  ];
  if (option.floor !== null && option.ceiling !== null)
    parts.push(
      option.surplus >= option.margin
        ? `price from ${say.money(option.floor)} to ${say.money(option.ceiling)}`
        : 'no price suits both sides',
    );
  return parts.join(' · ');
}

export function nextLines(assessed: Assessed, say: Words): string[] {
  const next = assessed.next;
  const lines: string[] = [];
  if (next.kind === 'check') {
    const advice = assessed.checks.find((known) => known.check === next.check);
    lines.push(
      `${strong('Next')}      ${strong(advice?.name ?? next.check)}${advice ? `  ${Math.round(advice.minutes)} min, worth ${say.money(advice.worth)}` : ''}`,
    );
    lines.push(`          ${next.because}`);
    for (const outcome of advice?.outcomes.slice(0, 4) ?? [])
      lines.push(`          ${quiet('if')} ${outcome.label} (${say.percent(outcome.chance)}): ${outcome.option}`);
  } else {
    const option = assessed.options.find((known) => known.id === next.option);
    lines.push(`${strong('Next')}      ${strong(option?.name ?? next.option)}`, `          ${next.because}`);
  }
  const idle = assessed.checks.filter((known) => known.state === 'cannot-change-the-decision');
  if (idle.length > 0)
    lines.push(
      `          ${quiet(`Cannot change the decision, spare the minutes: ${idle.map((known) => known.name).join(', ')}`)}`,
    );
  return lines;
}

/** Every check with its worth; closed ones gathered under each reason, so that a reason is said once. */
export function checkLines(checks: readonly CheckAdvice[], say: Words): string[] {
  const open = checks.filter((advice) => advice.state !== 'closed');
  const byReason = new Map<string, string[]>();
  for (const advice of checks) {
    if (advice.state !== 'closed') continue;
    for (const reason of advice.reasons) byReason.set(reason, [...(byReason.get(reason) ?? []), advice.name]);
  }
  return [
    ...open.map((advice) => checkLine(advice, say)),
    ...(byReason.size > 0 ? ['', strong('Closed for now')] : []),
    ...[...byReason].flatMap(([reason, names]) => [`  ${reason}`, quiet(`      ${names.join(', ')}`)]),
  ];
}

function checkLine(advice: CheckAdvice, say: Words): string {
  const worth = advice.state === 'done' ? '' : `  worth ${say.money(advice.worth)}`;
  const reasons = advice.reasons.length > 0 ? `  ${quiet(advice.reasons.join(' '))}` : '';
  return `${advice.state.replaceAll('-', ' ').padEnd(28)} ${advice.name}  ${Math.round(advice.minutes)} min${worth}${reasons}`;
}

const ATTRIBUTIONS = {
  relapsed: 'heat or an earlier repair had only masked it',
  'did-not-take': 'the right thing was treated, and it did not take',
  'wrong-thing': 'the wrong thing was treated',
  damaged: 'the work did damage',
  'new-fault': 'something new failed',
} as const;

/** After work: why it fails again, and what the first diagnosis looks like now. */
export function comebackLines(assessed: Assessed, say: Words): string[] {
  const { comeback } = assessed;
  if (!comeback) return [];
  const when = comeback.cameBack
    ? comeback.workedDays === null
      ? 'it came back, after how long nobody can tell'
      : `it came back after ${Math.round(comeback.workedDays)} days${comeback.returns > 1 ? `, ${comeback.returns} times in all with nothing done in between` : ''}`
    : comeback.attributions
      ? 'it has not left the bench since'
      : 'it has not come back since';
  const lines = [`${strong('After work')}  ${comeback.lastRemedyName}; ${when}`];
  if (comeback.attributions) {
    const ranked = Object.entries(comeback.attributions).sort(([, a], [, b]) => b - a);
    for (const [what, chance] of ranked)
      lines.push(`  ${say.percent(chance).padStart(10)}  ${ATTRIBUTIONS[what as keyof typeof ATTRIBUTIONS]}`);
  }
  const changed = comeback.firstDiagnosis.filter(({ onArrival, restated }) => Math.abs(onArrival - restated) >= 0.05);
  for (const { name, onArrival, restated } of changed.slice(0, 3))
    lines.push(
      quiet(
        `  ${name}: ${say.percent(onArrival)} on arrival, ${say.percent(restated)} in the light of everything since`,
      ),
    );
  return [...lines, ''];
}

function causeLines(assessed: Assessed, say: Words): string[] {
  const lines = [strong('Where it points')];
  const shown = assessed.ranking.slice(0, CAUSES_SHOWN);
  const owner = new Set(assessed.evidence.filter((item) => item.origin === 'owner').map((item) => item.finding));
  const width = Math.max(...shown.map((fault) => fault.name.length), 0);
  for (const fault of shown) lines.push(`  ${causeLine(fault, width, owner, say)}`);
  lines.push(
    `  ${say.percent(assessed.sound).padStart(6)}  ${bar(assessed.sound)}  nothing wrong with the card itself`,
  );
  if (assessed.strain.bits > STRAIN_SAID)
    lines.push(
      warm(
        `  The findings strain against each other (${assessed.strain.bits.toFixed(1)} bits): look again at ${assessed.strain.against
          .slice(0, 2)
          .map((item) => item.name)
          .join(' and ')}.`,
      ),
    );
  for (const item of assessed.evidence)
    if (item.contradicts)
      lines.push(
        warm(
          `  ${item.name}: recorded as ${item.stateName}, before as something else, with no work in between: does it come and go?`,
        ),
      );
  for (const pair of assessed.inseparable.slice(0, 3)) {
    const names = pair.faults.map((id) => assessed.ranking.find((fault) => fault.fault === id)?.name ?? id);
    lines.push(
      quiet(
        `  Not told apart yet: ${names.join(' / ')}${pair.check ? ` (the check for it: ${lower(assessed.checks.find((known) => known.check === pair.check)?.name ?? pair.check)})` : ''}`,
      ),
    );
  }
  return lines;
}

function causeLine(fault: RankedFault, width: number, owner: ReadonlySet<string>, say: Words): string {
  const telling = fault.evidence
    .filter((item) => Math.abs(item.decibels) >= LEAST_DECIBELS)
    .slice(0, EVIDENCE_SHOWN)
    .map(
      (item) =>
        `${owner.has(item.finding) ? 'owner: ' : ''}${item.name}: ${item.stateName} ${item.decibels > 0 ? '+' : ''}${item.decibels.toFixed(0)} dB`,
    );
  return `${say.percent(fault.chance).padStart(6)}  ${bar(fault.chance)}  ${fault.name.padEnd(width)}  ${quiet(telling.join('; '))}`.trimEnd();
}

const BAR = 12;
function bar(chance: number): string {
  const filled = Math.round(chance * BAR);
  return '#'.repeat(filled) + quiet('.'.repeat(BAR - filled));
}

function optionLines(assessed: Assessed, say: Words): string[] {
  const lines = [strong('Options')];
  for (const option of assessed.options.slice(0, OPTIONS_SHOWN)) {
    const waits = option.waitsFor ? `; not before: ${option.waitsFor.join(', ')}` : '';
    const mark =
      option.justified && option.steps.length > 0 && !option.waitsFor && !option.mendsTooLittle ? good('+') : ' ';
    const outdone = option.outdoneBy ? `; does as much for less: ${option.outdoneBy}` : '';
    lines.push(`  ${mark} ${option.name}  ${quiet(`${optionFigures(option, say)}${outdone}${waits}`)}`);
  }
  for (const closed of assessed.closedRemedies.slice(0, CLOSED_SHOWN))
    lines.push(`  ${quiet(`closed: ${closed.name}: ${closed.reasons[0] ?? ''}`)}`);
  const more = assessed.closedRemedies.length - CLOSED_SHOWN;
  if (more > 0) lines.push(`  ${quiet(`and ${more} more closed (--json has their reasons)`)}`);
  return lines;
}

function firmnessLines(assessed: Assessed, say: Words): string[] {
  const { certificate, sensitivity, prior } = assessed;
  const lines = [
    quiet(
      `After the shop's margin, deciding now is worth ${say.money(certificate.now)}; with the checks planned ${say.money(certificate.value)}; no plan can exceed ${say.money(certificate.upperBound)} (${certificate.method}; ${say.percent(certificate.coverage)} of the belief planned over).`,
    ),
    quiet(
      `Sets of up to ${prior.maxFaults} faults; larger ones held ${say.percent(prior.excluded)} before anything was seen.`,
    ),
  ];
  if (sensitivity) {
    lines.unshift(
      `${strong('How firm')}  the verdict stands in ${say.percent(sensitivity.stands)} of ${sensitivity.draws} draws of the estimates (seed ${sensitivity.seed})`,
    );
    for (const item of sensitivity.tornado.slice(0, 4))
      lines.splice(1, 0, `          ${item.name}: surplus ${say.money(item.atLow)} to ${say.money(item.atHigh)}`);
  }
  return lines;
}

function cautionLines(assessed: Assessed): string[] {
  if (assessed.cautions.length === 0) return [];
  return ['', strong('Cautions'), ...assessed.cautions.map((caution) => `  ! ${caution.text}`), ''];
}
