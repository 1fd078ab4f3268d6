import { loadKnowledge, loadTranslations } from '../knowledge/load.ts';
import { sayProblem } from '../knowledge/say-problem.ts';
import { type Command, printJson, stringFlag } from './command.ts';
import { KNOWLEDGE_FLAG } from './reading.ts';

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
    const problems = [...(loaded.ok ? [] : loaded.problems), ...spoken.problems];
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
