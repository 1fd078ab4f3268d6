import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Knowledge, Problem } from '../knowledge/knowledge.ts';
import { loadKnowledge, loadShop, loadTranslations, RULES_FOLDER } from '../knowledge/load.ts';
import { sayProblem } from '../knowledge/say-problem.ts';
import { auditShop } from '../shop/audit.ts';
import { type Command, printJson, stringFlag } from './command.ts';
import { KNOWLEDGE_FLAG } from './reading.ts';

const SHOP_FILE = 'shop.json';

export const auditCommand: Command = {
  name: 'audit',
  usage: 'audit',
  about: 'checks every file under rules/; says all problems at once, with file, path and what to do',
  more: ['Exit code 1 when anything is wrong.'],
  flags: { rules: KNOWLEDGE_FLAG },
  run: async (input) => {
    const folder = stringFlag(input, 'rules');
    const loaded = await loadKnowledge(folder);
    const spoken = loaded.ok ? await loadTranslations(loaded.knowledge, folder) : { translations: [], problems: [] };
    const problems = [
      ...(loaded.ok ? [] : loaded.problems),
      ...spoken.problems,
      ...(await shopProblems(folder, loaded.ok ? loaded.knowledge : null)),
    ];
    if (loaded.ok && problems.length === 0) {
      const { knowledge } = loaded;
      const counts = {
        faults: knowledge.faults.length,
        findings: knowledge.findings.length,
        checks: knowledge.checks.length,
        remedies: knowledge.remedies.length,
        'hold points': knowledge.holdPoints.length,
        windows: knowledge.windows.length,
        rules: Object.values(knowledge.rules).reduce((sum, rules) => sum + rules.length, 0),
        cautions: knowledge.cautions.length,
        sources: knowledge.sources.length,
        translations: spoken.translations.length,
      };
      if (input.values.json === true) printJson({ kind: 'sound', version: knowledge.version, counts });
      else {
        const list = Object.entries(counts).map(([what, count]) => `${count} ${what}`);
        process.stdout.write(`The knowledge is sound: ${list.join(', ')}. Version ${knowledge.version}.\n`);
      }
      return 0;
    }
    if (input.values.json === true) printJson({ kind: 'unsound', problems });
    else process.stdout.write(`${problems.map(sayProblem).join('\n')}\n${problems.length} problem(s).\n`);
    return 1;
  },
};

/** The profile that a new bench begins with lies among the rules, and is held to them. */
async function shopProblems(folder = RULES_FOLDER, knowledge: Knowledge | null): Promise<readonly Problem[]> {
  const file = join(folder, SHOP_FILE);
  if (!existsSync(file)) return [];
  const loaded = await loadShop(file);
  if (loaded.ok) return knowledge ? auditShop(SHOP_FILE, loaded.shop, knowledge.bench, knowledge) : [];
  return loaded.problems.map((problem) => ({ ...problem, file: SHOP_FILE }));
}
