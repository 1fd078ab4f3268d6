import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { assess } from '../assess.ts';
import { exportKnowledge } from '../knowledge/export.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { type RankedCase, type RankedEstimate, rankEstimates } from '../knowledge/rank-estimates.ts';
import { type Pair, reportKnowledge } from '../knowledge/report.ts';
import type { Shop } from '../shop/schema.ts';
import { BadInput, type Command, printJson, stringFlag, wholeFlag } from './command.ts';
import { KNOWLEDGE_FLAG, readJson, readKnowledge, readShop, SHOP_FLAG } from './reading.ts';

const CASES_FOLDER = fileURLToPath(new URL('../../cases', import.meta.url));
const TOP_FAULTS = 4;

export const knowledgeCommand: Command = {
  name: 'knowledge',
  usage: 'knowledge',
  about: 'what the figures rest on; --json exports the whole compiled model',
  more: [
    'Without a flag: how many numbers rest on each basis, and which faults no finding tells apart. --estimates ranks the',
    'estimates by how much the verdicts over the worked cases depend on them: the to-do list for whoever knows better',
    '(it assesses every case many times over: some minutes). --json alone exports the compiled model whole, so that anybody can',
    'recompute a posterior by brute force; with --report, --estimates or --facts it prints that instead.',
  ],
  flags: {
    rules: KNOWLEDGE_FLAG,
    shop: SHOP_FLAG,
    report: { type: 'boolean', about: 'the report (the default without --json)' },
    facts: { type: 'boolean', about: 'the facts a record can state, with their values' },
    estimates: { type: 'boolean', about: 'rank the estimates by how much verdicts over the cases depend on them' },
    cases: { type: 'string', takes: 'folder', about: 'cases to rank over (default: cases/)' },
    most: { type: 'string', takes: 'N', about: 'how many estimates to list (default 25)' },
  },
  run: async (input) => {
    const knowledge = await readKnowledge(input);
    const json = input.values.json === true;
    const idle = ['cases', 'most'].find((flag) => input.values[flag] !== undefined);
    if (idle !== undefined && input.values.estimates !== true)
      throw new BadInput(`--${idle} is about ranking the estimates: add --estimates, or leave it out.`);
    const most = wholeFlag(input, 'most', 25, 1, 10_000);
    if (input.values.estimates === true) {
      const shop = await readShop(input, knowledge);
      const ranked = await rankOverCases(knowledge, shop, stringFlag(input, 'cases') ?? CASES_FOLDER);
      if (json) printJson(ranked);
      else process.stdout.write(`${estimatesText(knowledge, ranked.slice(0, most))}\n`);
      return 0;
    }
    if (input.values.facts === true) {
      if (json) printJson(knowledge.facts);
      else process.stdout.write(`${factsText(knowledge)}\n`);
      return 0;
    }
    if (json && input.values.report !== true) {
      printJson(exportKnowledge(knowledge));
      return 0;
    }
    const report = reportKnowledge(knowledge);
    if (json) printJson(report);
    else process.stdout.write(`${reportText(knowledge)}\n`);
    return 0;
  },
};

function reportText(knowledge: Knowledge): string {
  const report = reportKnowledge(knowledge);
  const name = (id: string) => knowledge.faults.find((fault) => fault.id === id)?.name ?? id;
  const bases = Object.keys(report.numbers) as (keyof typeof report.numbers)[];
  const row = (kind: string, counts: typeof report.numbers) =>
    `  ${kind.padEnd(14)} ${bases.map((basis) => String(counts[basis]).padStart(9)).join(' ')}`;
  const pair = ({ faults, separation, finding }: Pair) =>
    `  ${separation.toFixed(2)}  ${name(faults[0])} / ${name(faults[1])}${finding ? `  (best parted by ${finding})` : '  (nothing parts them)'}`;
  return [
    `Knowledge ${report.knowledge}: what its numbers rest on`,
    `  ${''.padEnd(14)} ${bases.map((basis) => basis.padStart(9)).join(' ')}`,
    ...Object.entries(report.byKind)
      .filter(([, counts]) => bases.some((basis) => counts[basis] > 0))
      .map(([kind, counts]) => row(kind, counts)),
    row('together', report.numbers),
    '',
    `Faults that no finding tells apart (total variation at most ${report.threshold} in every finding): ${report.inseparable.length === 0 ? 'none' : ''}`,
    ...report.inseparable.map(pair),
    '',
    'Hardest pairs',
    ...report.closest.map(pair),
  ].join('\n');
}

function factsText(knowledge: Knowledge): string {
  return knowledge.facts
    .map((fact) => {
      const values =
        fact.type.kind === 'number'
          ? `${fact.type.min} to ${fact.type.max} ${fact.type.unit}`
          : fact.type.kind === 'yes-no'
            ? 'yes, no'
            : fact.type.values.map((value) => value.id).join(', ');
      return `${fact.id.padEnd(22)} ${fact.step.padEnd(9)} ${fact.name}: ${values}${fact.type.kind === 'set' ? ' (several)' : ''}`;
    })
    .join('\n');
}

function estimatesText(knowledge: Knowledge, ranked: readonly RankedEstimate[]): string {
  const lines = ranked.map((estimate) => {
    const what = [estimate.kind, estimate.finding, estimate.remedy, estimate.fault]
      .filter((part) => part !== undefined)
      .join(' ');
    const flips = estimate.flips.length === 0 ? '' : `; turns the verdict of ${estimate.flips.join(', ')}`;
    return `  ${estimate.change.toFixed(2).padStart(8)}  ${what}  (${estimate.tried.length} case(s)${flips})${estimate.replaceBy ? `\n            better: ${estimate.replaceBy}` : ''}`;
  });
  return [
    `Estimates of knowledge ${knowledge.version} by how much verdicts depend on them`,
    'Each is moved by half a unit of log-odds both ways; the figure is the mean change of surplus over the cases.',
    ...lines,
  ].join('\n');
}

async function casesIn(folder: string): Promise<string[]> {
  try {
    return (await readdir(folder)).filter((name) => name.endsWith('.json')).sort();
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    const wrong =
      code === 'ENOENT' ? 'there is no such folder' : code === 'ENOTDIR' ? 'that is a file' : (error as Error).message;
    throw new BadInput(`${folder}: ${wrong}. Name a folder of records with --cases.`);
  }
}

async function rankOverCases(knowledge: Knowledge, shop: Shop, folder: string): Promise<RankedEstimate[]> {
  const names = await casesIn(folder);
  if (names.length === 0)
    throw new BadInput(`${folder}: there is no case here. Name a folder of records with --cases.`);
  const cases: RankedCase<unknown>[] = [];
  for (const name of names) {
    const record = await readJson(join(folder, name));
    const assessment = await assess(knowledge, shop, record, { plan: false });
    if (assessment.kind !== 'assessed')
      throw new BadInput(
        `${name}: this case is not assessed (${assessment.kind}). Try \`worth-the-heat assess\` on it.`,
      );
    cases.push({
      id: assessment.record,
      record,
      faults: assessment.ranking.slice(0, TOP_FAULTS).map((fault) => fault.fault),
      findings: assessment.evidence.map((item) => item.finding),
    });
  }
  return rankEstimates(knowledge, cases, async (varied, record) => {
    const assessment = await assess(varied, shop, record, { plan: false });
    if (assessment.kind !== 'assessed') return { verdict: assessment.kind, surplus: 0 };
    // how far the best repair is ahead of the best way to stop: it moves under every verdict
    const best = (stop: boolean) =>
      assessment.options
        .filter((option) => (option.steps.length === 0) === stop)
        .reduce((most, option) => Math.max(most, option.surplus - option.margin), Number.NEGATIVE_INFINITY);
    const ahead = best(false) - best(true);
    return { verdict: assessment.verdict.kind, surplus: Number.isFinite(ahead) ? ahead : 0 };
  });
}
