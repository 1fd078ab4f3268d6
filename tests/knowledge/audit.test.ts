import { describe, expect, it } from 'vitest';
import { parseKnowledge } from '../../src/knowledge/parse.ts';
import { sayProblem } from '../../src/knowledge/say-problem.ts';
import { brokenIn, type SmallFile, smallFiles, smallKnowledge } from './small-knowledge.ts';

// biome-ignore lint/suspicious/noExplicitAny: broken on purpose, in ways no type allows
type Json = any;

async function said(files: ReadonlyMap<string, unknown>): Promise<string[]> {
  const parsed = await parseKnowledge(files);
  return parsed.ok ? [] : parsed.problems.map(sayProblem);
}

/** Broken so, the knowledge is refused, and a contributor sees exactly these sentences. */
function refuses(title: string, file: SmallFile, breakIt: (content: Json) => void, ...sentences: string[]): void {
  it(title, async () => {
    expect(await said(brokenIn(file, breakIt))).toEqual(sentences);
  });
}

describe('A sound knowledge', () => {
  it('passes, and is indexed for inference in the order of its faults and findings', async () => {
    const knowledge = await smallKnowledge();
    expect(knowledge.network.faults).toEqual(['core-joint-crack', 'core-stage-short', 'host-supply']);
    expect(knowledge.network.findings.map(({ id }) => id)).toEqual([
      'start-up',
      'resistance-core',
      'idle-current',
      'host-swap',
      'ball-x-ray',
    ]);
    expect(knowledge.faults.map(({ id }) => id)).toEqual(knowledge.network.faults);
    expect(knowledge.rules.gates.map(({ id }) => id)).toEqual(['no-reball-old']);
  });

  it('is not disturbed by the shop profile and the published schemas that lie beside it', async () => {
    const files = smallFiles();
    files.set('shop.json', { anything: true });
    files.set('schemas/fault.schema.json', {});
    expect(await said(files)).toEqual([]);
  });
});

describe('Files and their names', () => {
  it('says that a file and its id differ, and that another file has that id', async () => {
    const all = await said(
      brokenIn('faults/core-stage-short.json', (fault) => {
        fault.id = 'core-joint-crack';
      }),
    );
    expect(all).toContain(
      'rules/faults/core-stage-short.json at id: the file is called "core-stage-short" and its id is "core-joint-crack". Call the file core-joint-crack.json, or give it the id "core-stage-short".',
    );
    expect(all).toContain(
      'rules/faults/core-stage-short.json at id: the id "core-joint-crack" is taken by faults/core-joint-crack.json. Give one of the two another id, and call its file so.',
    );
  });
  it('says that a rule id is taken by a rule in another folder', async () => {
    const files = smallFiles();
    const rule = { ...(files.get('history/mined.json') as object), id: 'artifacts' };
    files.set('history/artifacts.json', rule);
    expect(await said(files)).toContain(
      'rules/owner-words/artifacts.json at id: the id "artifacts" is taken by history/artifacts.json. Give one of the two another id, and call its file so.',
    );
  });
  it('says that a folder is none of the knowledge', async () => {
    const files = smallFiles();
    files.set('fault/x.json', {});
    files.set('faults/deeper/x.json', {});
    files.set('prices.json', {});
    const all = await said(files);
    expect(all).toHaveLength(3);
    expect(all[0]).toMatch(
      /^rules\/fault\/x\.json: "fault" is not a folder of the knowledge\. Move it to one of faults,/,
    );
    expect(all[1]).toMatch(/^rules\/faults\/deeper\/x\.json: "faults\/deeper" is not a folder/);
    expect(all[2]).toMatch(/^rules\/prices\.json: no file of this name belongs directly under rules\//);
  });
  it('says which single file is missing, and what it holds', async () => {
    const files = smallFiles();
    files.delete('population.json');
    expect(await said(files)).toEqual([
      'rules/population.json: this file is missing. Add it: it holds the figures of the population as a whole.',
    ]);
  });
  refuses(
    'says that a state stands twice',
    'findings/host-swap.json',
    (finding) => {
      finding.states.push(finding.states[1]);
    },
    'rules/findings/host-swap.json at states[2].id: "same-fault" stands in this list twice. Give one of the two another id, or delete it.',
  );
  refuses(
    'keeps the names of what was seen for what was seen',
    'facts.json',
    (file) => {
      file.facts.push({ ...file.facts[1], id: 'seen-by-owner' });
    },
    'rules/facts.json at facts[4]: no rule asks for "seen-by-owner", so the question is asked for nothing. Use it in a rule, or delete it.',
    'rules/facts.json at facts[4].id: "seen-by-owner" begins with "seen-", which is kept for what was seen of a finding. Use another name; rules may already ask for seen-<finding> of every finding.',
  );
});

describe('Numbers', () => {
  refuses(
    'wants every number to say where it comes from',
    'faults/core-stage-short.json',
    (fault) => {
      delete fault.share.basis;
    },
    'rules/faults/core-stage-short.json at share.basis: a number without a basis. Say where it comes from: standard, published (both with source and place), practice, estimate or shop.',
  );
  refuses(
    'wants an equivalent sample size with every probability',
    'faults/core-stage-short.json',
    (fault) => {
      delete fault.share.n;
    },
    'rules/faults/core-stage-short.json at share.n: a probability without its equivalent sample size. Give n: how many cards of experience it is worth (5 is a guess, 200 is well known).',
  );
  refuses(
    'refuses a probability above 1 and one below 0',
    'findings/host-swap.json',
    (finding) => {
      finding.leak.p = { works: 1.2, 'same-fault': -0.2 };
    },
    'rules/findings/host-swap.json at leak.p.same-fault: -0.2 is less than 0. A probability lies from 0 to 1.',
    'rules/findings/host-swap.json at leak.p.works: 1.2 is more than 1. A probability lies from 0 to 1.',
  );
  refuses(
    'refuses a row that does not add up to one',
    'findings/host-swap.json',
    (finding) => {
      finding.given['core-joint-crack'].p.works = 0.05;
    },
    'rules/findings/host-swap.json at given.core-joint-crack.p: the states of "host-swap" given "core-joint-crack" add up to 0.95, not 1. States are exclusive and complete: give the remainder to the most normal one.',
  );
  refuses(
    'lets nothing be impossible for a card without a fault',
    'findings/host-swap.json',
    (finding) => {
      finding.leak.p = { works: 1 };
    },
    'rules/findings/host-swap.json at leak.p.same-fault: a card with no fault could never show "same-fault", not even by a slip of the hand. Give it a small chance: one misreading must not make a fault certain.',
  );
  refuses(
    'refuses a cure and a mask that leave no room for each other',
    'remedies/reball-core.json',
    (remedy) => {
      remedy.effects['core-joint-crack'].masks.p = 0.3;
    },
    'rules/remedies/reball-core.json at effects.core-joint-crack: curing (0.8) and masking (0.3) add up to 1.1, more than 1. One attempt cures the fault, masks it or leaves it: the three chances sum to one.',
  );
  refuses(
    'wants to know how soon a masked fault is back',
    'faults/core-joint-crack.json',
    (fault) => {
      delete fault.relapse;
    },
    'rules/remedies/reball-core.json at effects.core-joint-crack.masks: "core-joint-crack" can be masked here, and its file does not say how soon a masked one is back. Add "relapse" to faults/core-joint-crack.json, or take the mask out.',
  );
  refuses(
    'refuses a range that falls',
    'checks/x-ray.json',
    (check) => {
      check.minutes.low = 20;
    },
    'rules/checks/x-ray.json at minutes: low 20, likely 5 and high 9 are not in order. Low and high are the ends of a 90 % range around the likely figure.',
  );
  refuses(
    'refuses a share that no evidence can move',
    'faults/core-stage-short.json',
    (fault) => {
      fault.share.p = 0;
    },
    'rules/faults/core-stage-short.json at share.p: a share of 0 cannot be moved by any evidence. Give a share above 0 and below 1, however small.',
  );
  refuses(
    'refuses a population in which no card has exactly one fault',
    'population.json',
    (population) => {
      population.noFault = { p: 0.95, n: 10, basis: 'estimate' };
    },
    'rules/population.json at noFault.p: cards with no fault (0.95) and with several (0.1) leave none with exactly one. The two shares must add up to less than 1.',
  );
  refuses(
    'refuses a number that is a word, and an empty text',
    'faults/core-stage-short.json',
    (fault) => {
      fault.share.p = '0.2';
      fault.owner = ' ';
    },
    'rules/faults/core-stage-short.json at owner: the text is empty. Write it.',
    'rules/faults/core-stage-short.json at share.p: "0.2" is a text where a number belongs. Write a number.',
  );
  refuses(
    'does not let a misspelt key vanish',
    'faults/core-stage-short.json',
    (fault) => {
      fault.share.becuase = 'seen often';
      fault.sharre = 1;
    },
    'rules/faults/core-stage-short.json at sharre: nothing reads "sharre" here. Correct its spelling or take it out; the schema in rules/schemas lists what belongs here.',
  );
  refuses(
    'does not let a misspelt key inside a number vanish',
    'faults/core-stage-short.json',
    (fault) => {
      fault.share.becuase = 'seen often';
    },
    'rules/faults/core-stage-short.json at share.becuase: nothing reads "becuase" here. Correct its spelling or take it out; the schema in rules/schemas lists what belongs here.',
  );
  refuses(
    'refuses a site that is none, and lists those there are',
    'faults/core-stage-short.json',
    (fault) => {
      fault.site = 'powr';
    },
    'rules/faults/core-stage-short.json at site: "powr" is not one of the choices. Use one of core-joints, core-package, board, power, memory, firmware, cooling, earlier-rework, connectors, host.',
  );
  refuses(
    'refuses a fact whose range is empty',
    'facts.json',
    (file) => {
      file.facts[2].type.min = 30;
    },
    'rules/facts.json at facts[2].type: min 30 is not below max 20. Give the least and the greatest value the fact can have.',
    'rules/gates/no-reball-old.json at conditions.all[0].value: "age-years" is a number from 30 to 20 years, and this compares it with 12. Write a number in that range, or widen the range in facts.json.',
    'rules/history/mined-or-old.json at conditions.any[1].value: "age-years" is a number from 30 to 20 years, and this compares it with 8. Write a number in that range, or widen the range in facts.json.',
  );
});

describe('Ids', () => {
  refuses(
    'says which id is unknown, and which was perhaps meant',
    'checks/host-swap.json',
    (check) => {
      check.yields[0] = 'host-swop';
      check.equipment = ['limited-suply'];
      check.cautions = ['nothing-like-it'];
      check.preparations = ['limited-supply', 'cooler-of'];
      check.requires[0].states[1] = 'lo';
      check.risk.fault = 'core-stage-shirt';
    },
    'rules/checks/host-swap.json at cautions[0]: there is no caution "nothing-like-it". Correct it, or add it in cautions/nothing-like-it.json.',
    'rules/checks/host-swap.json at equipment[0]: there is no piece of equipment "limited-suply". Did you mean "limited-supply"? Correct it, or add it in bench.json.',
    'rules/checks/host-swap.json at preparations[1]: there is no preparation "cooler-of". Correct it, or add it in preparations/cooler-of.json.',
    'rules/checks/host-swap.json at requires[0].states[1]: "lo" is not a state of "resistance-core". Did you mean "low"? Its states are normal, low, short.',
    'rules/checks/host-swap.json at risk.fault: there is no fault "core-stage-shirt". Did you mean "core-stage-short"? Correct it, or add it in faults/core-stage-shirt.json.',
    'rules/checks/host-swap.json at yields[0]: there is no finding "host-swop". Did you mean "host-swap"? Correct it, or add it in findings/host-swop.json.',
    'rules/findings/host-swap.json: no check yields "host-swap". List it under "yields" of a check, or delete it.',
  );
  refuses(
    'checks the ids of a remedy',
    'remedies/replace-power-stage.json',
    (remedy) => {
      remedy.parts = ['power-stages'];
      remedy.induces = { 'rework-bridge': { p: 0.1, n: 5, basis: 'estimate' } };
    },
    'rules/remedies/replace-power-stage.json at induces.rework-bridge: there is no fault "rework-bridge". Correct it, or add it in faults/rework-bridge.json.',
    'rules/remedies/replace-power-stage.json at parts[0]: there is no part "power-stages". Did you mean "power-stage"? Correct it, or add it in bench.json.',
  );
  refuses(
    'checks the states and faults of a row',
    'findings/host-swap.json',
    (finding) => {
      finding.given['core-stage-short'].p = { 'same-faul': 1 };
      finding.given['core-dead'] = finding.given['core-joint-crack'];
    },
    'rules/findings/host-swap.json at given.core-dead: there is no fault "core-dead". Correct it, or add it in faults/core-dead.json.',
    'rules/findings/host-swap.json at given.core-stage-short.p.same-faul: "same-faul" is not a state of "host-swap". Did you mean "same-fault"? Its states are works, same-fault.',
  );
  refuses(
    'checks what the owner is taken to have said',
    'owner-words/artifacts.json',
    (rule) => {
      rule.event.params.weights = { artefacts: 1 };
    },
    'rules/owner-words/artifacts.json at event.params.weights.artefacts: "artefacts" is not a state of "start-up". Did you mean "artifacts"? Its states are desktop, artifacts, nothing.',
  );
  refuses(
    'checks what history moves',
    'history/mined.json',
    (rule) => {
      rule.event.params.factors = { 'core-joint-crak': 2 };
    },
    'rules/history/mined.json at event.params.factors.core-joint-crak: there is no fault "core-joint-crak". Did you mean "core-joint-crack"? Correct it, or add it in faults/core-joint-crak.json.',
  );
  refuses(
    'checks what a gate closes',
    'gates/no-reball-old.json',
    (rule) => {
      rule.event.params = { checks: ['x-rays'], remedies: ['reflow'], reason: 'Old.' };
    },
    'rules/gates/no-reball-old.json at event.params.checks[0]: there is no check "x-rays". Did you mean "x-ray"? Correct it, or add it in checks/x-rays.json.',
    'rules/gates/no-reball-old.json at event.params.remedies[0]: there is no remedy "reflow". Correct it, or add it in remedies/reflow.json.',
  );
  refuses(
    'refuses an id that is none',
    'preparations/limited-supply.json',
    (preparation) => {
      preparation.id = 'Limited Supply';
    },
    'rules/preparations/limited-supply.json at id: "Limited Supply" is not an id. Ids are lower-case words joined by hyphens, such as core-joint-crack.',
  );
});

describe('Windows', () => {
  const window = 'windows/resistance-core-large.json';
  const at = `rules/${window}`;
  refuses(
    'wants edges that rise',
    window,
    (content) => {
      content.edges[1].at = 0.02;
    },
    `${at} at edges[1].at: the edge at 0.02 does not lie above the one before it, at 0.03. Write the edges from low to high.`,
  );
  refuses(
    'wants one band more than edges',
    window,
    (content) => {
      content.bands.pop();
    },
    `${at} at bands: 2 edges make 3 bands, and 2 are named. Name one band below the first edge, one between each two, and one above the last.`,
  );
  refuses(
    'wants bands that are states of the finding',
    window,
    (content) => {
      content.bands[0] = 'shorted';
      content.overRange = 'open';
    },
    `${at} at bands[0]: "shorted" is not a state of "resistance-core". Did you mean "short"? Its states are normal, low, short.`,
    `${at} at overRange: "open" is not a state of "resistance-core". Its states are normal, low, short.`,
  );
  refuses(
    'refuses an edge between a band and itself',
    window,
    (content) => {
      content.bands[1] = 'short';
    },
    `${at} at bands[1]: "short" stands on both sides of an edge, so the edge decides nothing. Take the edge out, or name the band on its other side.`,
  );
  refuses(
    'wants as many relative edges as edges, each a multiple above 0',
    window,
    (content) => {
      content.relative = [{ at: 0, tolerance: 0, basis: 'estimate' }];
    },
    `${at} at relative: 1 relative edges for 2 edges. Relative edges part the same bands: give as many, as multiples of a known-good reading.`,
    `${at} at relative[0].at: 0 times a known-good reading parts nothing. Write a multiple above 0, such as 0.5 for half the known-good reading.`,
  );
  refuses(
    'refuses a tolerance around an edge that has no logarithm',
    window,
    (content) => {
      content.edges[0].at = 0;
    },
    `${at} at edges[0].tolerance: a tolerance is the spread of the edge's logarithm, and an edge at 0 has none. Make this edge sharp (tolerance 0), or move it above 0.`,
  );
});

describe('Rules', () => {
  const mined = 'history/mined.json';
  const comparison = (title: string, fact: string, operator: string, value: unknown, sentence: string) =>
    refuses(
      title,
      mined,
      (rule) => {
        rule.conditions = { all: [{ fact, operator, value }] };
      },
      `rules/history/mined.json at conditions.all[0]${sentence}`,
    );
  comparison(
    'refuses an unknown fact',
    'mind',
    'equal',
    true,
    '.fact: there is no fact "mind". Did you mean "mined"? Correct it, or add it to facts.json; what was seen is asked for as seen-<finding>.',
  );
  comparison(
    'refuses what was seen of an unknown finding',
    'seen-hot-spot',
    'equal',
    'core',
    '.fact: there is no fact "seen-hot-spot". Correct it, or add it to facts.json; what was seen is asked for as seen-<finding>.',
  );
  comparison(
    'refuses an unknown operator',
    'mined',
    'equals',
    true,
    '.operator: there is no operator "equals". Did you mean "equal"? Use one of equal, notEqual, in, notIn, contains, doesNotContain, lessThan, lessThanInclusive, greaterThan, greaterThanInclusive.',
  );
  comparison(
    'refuses an operator that does not suit the fact',
    'die-size',
    'greaterThan',
    3,
    '.operator: "greaterThan" does not suit "die-size", which is one of several words. Use one of equal, notEqual, in, notIn.',
  );
  comparison(
    'refuses to compare a set with equal',
    'owner-words',
    'equal',
    'artifacts',
    '.operator: "equal" does not suit "owner-words", which is a set of words. Use one of contains, doesNotContain.',
  );
  comparison(
    'refuses a value the fact never has',
    'die-size',
    'equal',
    'larg',
    '.value: "die-size" is never "larg". Did you mean "large"? Its values are small, medium, large.',
  );
  comparison(
    'refuses a state the finding never has',
    'seen-start-up',
    'equal',
    'dead',
    '.value: "seen-start-up" is never "dead". Its values are desktop, artifacts, nothing.',
  );
  comparison(
    'refuses a word where yes or no belongs',
    'mined',
    'equal',
    'yes',
    '.value: "mined" is yes or no, never "yes". Write true or false, without quotation marks.',
  );
  comparison(
    'refuses a number outside the range of the fact',
    'age-years',
    'greaterThan',
    50,
    '.value: "age-years" is a number from 0 to 20 years, and this compares it with 50. Write a number in that range, or widen the range in facts.json.',
  );
  comparison(
    'refuses a single value where a list belongs',
    'die-size',
    'in',
    'large',
    '.value: "in" compares with a list. Write the values in brackets: ["...", "..."].',
  );
  comparison(
    'refuses a list where a single value belongs',
    'die-size',
    'equal',
    ['large'],
    '.value: "equal" compares with one value, not a list. Write one value, or use in or notIn.',
  );
  comparison(
    'refuses an empty list of values',
    'die-size',
    'in',
    [],
    '.value: the list of values is empty, so this decides nothing. Name at least one value, or delete the comparison.',
  );
  refuses(
    'refuses an empty list of conditions, however deep',
    mined,
    (rule) => {
      rule.conditions.all.push({ any: [] });
    },
    'rules/history/mined.json at conditions.all[1].any: the list "any" is empty, and the rules engine would let it fire for every card. Put at least one condition in it, or delete it.',
  );
  refuses(
    'refuses a condition that is none',
    mined,
    (rule) => {
      rule.conditions.all = [{ fact: 'mined', operator: 'equal' }, { every: [] }, { all: 'x' }, 'mined'];
    },
    'rules/history/mined.json at conditions.all[0].value: "value" is missing. Write a word, a number, true, false, or a list of words or numbers.',
    'rules/history/mined.json at conditions.all[1]: a condition of every. A condition is {"all": [...]}, {"any": [...]}, {"not": {...}} or {"fact", "operator", "value"}.',
    'rules/history/mined.json at conditions.all[2].all: "all" is not a list. A condition is {"all": [...]}, {"any": [...]}, {"not": {...}} or {"fact", "operator", "value"}.',
    'rules/history/mined.json at conditions.all[3]: "mined" is not a condition. A condition is {"all": [...]}, {"any": [...]}, {"not": {...}} or {"fact", "operator", "value"}.',
  );
  refuses(
    'wants a single comparison inside a list, as the rules engine does',
    mined,
    (rule) => {
      rule.conditions = rule.conditions.all[0];
    },
    'rules/history/mined.json at conditions: the rules engine reads a single comparison only inside a list. Wrap it: {"all": [ ... ]}.',
  );
  refuses(
    'refuses a rule that asks one fact to be two things',
    mined,
    (rule) => {
      rule.conditions.all.push({ fact: 'mined', operator: 'equal', value: false });
    },
    'rules/history/mined.json at conditions: no card can meet these conditions: they contradict each other. Look for one fact that is asked to be two things at once, or for bounds that leave no room.',
  );
  refuses(
    'refuses bounds that leave no room between them',
    mined,
    (rule) => {
      rule.conditions.all = [
        { fact: 'age-years', operator: 'greaterThan', value: 5 },
        { fact: 'age-years', operator: 'lessThanInclusive', value: 5 },
      ];
    },
    'rules/history/mined.json at conditions: no card can meet these conditions: they contradict each other. Look for one fact that is asked to be two things at once, or for bounds that leave no room.',
  );
  refuses(
    'refuses a negation that does not say what unknown means',
    'gates/no-reball-old.json',
    (rule) => {
      delete rule.unknownMeans;
      rule.conditions.all.push({ fact: 'die-size', operator: 'notIn', value: ['small'] });
    },
    'rules/gates/no-reball-old.json at conditions.all[1].not: this is a negation over "seen-resistance-core", which may be unknown, and the rule does not say what unknown means. Add "unknownMeans": {"seen-resistance-core": "match" or "no-match"}, or ask positively (in, equal).',
    'rules/gates/no-reball-old.json at conditions.all[2]: this is a negation over "die-size", which may be unknown, and the rule does not say what unknown means. Add "unknownMeans": {"die-size": "match" or "no-match"}, or ask positively (in, equal).',
  );
  refuses(
    'refuses to say what unknown means of a fact nobody asks for',
    mined,
    (rule) => {
      rule.unknownMeans = { mind: 'match' };
    },
    'rules/history/mined.json at unknownMeans.mind: the conditions do not ask for "mind". Did you mean "mined"? Correct it or take it out.',
  );
  refuses(
    'refuses a negation where a finding is said to apply',
    'findings/idle-current.json',
    (finding) => {
      finding.appliesWhen = { all: [{ fact: 'die-size', operator: 'notEqual', value: 'small' }] };
    },
    'rules/findings/idle-current.json at appliesWhen.all[0]: this is a negation over "die-size", which may be unknown. Ask positively (equal, in): where a finding applies cannot say what unknown means.',
  );
  refuses(
    'refuses a finding that applies to no card',
    'findings/idle-current.json',
    (finding) => {
      finding.appliesWhen.all.push({ fact: 'die-size', operator: 'equal', value: 'small' });
    },
    'rules/findings/idle-current.json at appliesWhen: this finding applies to no card: the conditions contradict each other. Look for one fact that is asked to be two things at once, or for bounds that leave no room.',
  );
  refuses(
    'wants a rule in the folder of what it emits',
    mined,
    (rule) => {
      rule.event = { type: 'caution', params: { caution: 'hot-work' } };
    },
    'rules/history/mined.json at event.type: a rule in history/ emits history, not "caution". Move the rule to the folder of what it emits, or emit what belongs here.',
  );
  refuses(
    'refuses an event that is none',
    mined,
    (rule) => {
      rule.event.type = 'histry';
    },
    'rules/history/mined.json at event.type: "histry" is not one of the choices. Use one of history, window, evidence, close, damage, caution.',
  );
});

describe('A rule with too many facts', () => {
  it('is refused, because nobody can tell whether it ever fires', async () => {
    const files = smallFiles();
    const facts = (files.get('facts.json') as Json).facts;
    const many = Array.from({ length: 20 }, (_, i) => `fact-${i}`);
    for (const id of many) facts.push({ ...facts[0], id });
    const either = many.map((fact) => ({
      any: [
        { fact, operator: 'equal', value: 'small' },
        { fact, operator: 'in', value: ['medium', 'large'] },
      ],
    }));
    const never = ['small', 'large'].map((value) => ({ fact: 'fact-19', operator: 'equal', value }));
    (files.get('history/mined.json') as Json).conditions = { all: [...either, ...never] };
    expect(await said(files)).toEqual([
      'rules/history/mined.json at conditions: after 100000 combinations of facts it is still open whether this rule can fire. Split it into rules that ask for fewer facts.',
    ]);
  });
});

describe('One window for one reading', () => {
  const other = 'window-choice/resistance-core-other.json';
  refuses(
    'refuses two windows for one card',
    other,
    (rule) => {
      rule.conditions.all[0].value = ['small', 'medium', 'large'];
    },
    `rules/${other} at conditions: a reading of "resistance-core" would get two windows, this one and that of window-choice/resistance-core-large.json, for example with die-size large. Make the two sets of conditions exclude each other, unknown facts included.`,
  );
  refuses(
    'says that a bound leaves out the end of a range',
    other,
    (rule) => {
      rule.conditions.all = [
        { fact: 'die-size', operator: 'notEqual', value: 'large' },
        { fact: 'age-years', operator: 'lessThan', value: 20 },
      ];
      rule.unknownMeans = { 'die-size': 'match', 'age-years': 'match' };
    },
    `rules/window-choice/resistance-core-large.json at conditions: a reading of "resistance-core" would get no window with die-size small, age-years 20. Add a rule that chooses a window for such a card, or widen this one.`,
  );
  it('refuses two windows that only an unknown fact brings together', async () => {
    const files = brokenIn('window-choice/resistance-core-large.json', (rule) => {
      rule.unknownMeans = { 'die-size': 'match' };
    });
    (files.get(other) as Json).unknownMeans = { 'die-size': 'match' };
    expect(await said(files)).toEqual([
      `rules/${other} at conditions: a reading of "resistance-core" would get two windows, this one and that of window-choice/resistance-core-large.json, for example with die-size unknown. Make the two sets of conditions exclude each other, unknown facts included.`,
    ]);
  });
  refuses(
    'says for which card there is no window',
    other,
    (rule) => {
      rule.conditions.all[0].value = ['small'];
    },
    'rules/window-choice/resistance-core-large.json at conditions: a reading of "resistance-core" would get no window with die-size medium. Add a rule that chooses a window for such a card, or widen this one.',
  );
  it('says that a window is never chosen', async () => {
    const files = smallFiles();
    files.set('windows/spare.json', { ...(files.get('windows/resistance-core-other.json') as object), id: 'spare' });
    expect(await said(files)).toEqual([
      'rules/windows/spare.json: no rule ever chooses this window, so no reading of "resistance-core" is graded by it. Add a rule in window-choice/ that chooses it, or delete it.',
    ]);
  });
  refuses(
    'refuses the window of another finding',
    other,
    (rule) => {
      rule.event.params.finding = 'start-up';
    },
    `rules/window-choice/resistance-core-large.json at conditions: a reading of "resistance-core" would get no window with die-size small. Add a rule that chooses a window for such a card, or widen this one.`,
    `rules/${other} at conditions: a reading of "start-up" would get no window with die-size large. Add a rule that chooses a window for such a card, or widen this one.`,
    `rules/${other} at event.params.window: the window "resistance-core-other" grades readings of "resistance-core", not of "start-up". Name a window of this finding, or correct the finding.`,
  );
  it('suggests that a counted fact is whole where only a fraction brings two windows together', async () => {
    const files = brokenIn('window-choice/resistance-core-large.json', (rule) => {
      rule.conditions.all = [{ fact: 'age-years', operator: 'lessThan', value: 6 }];
    });
    (files.get(other) as Json).conditions.all = [{ fact: 'age-years', operator: 'greaterThan', value: 5 }];
    const [sentence] = await said(files);
    expect(sentence).toContain('age-years 5.5');
    expect(sentence).toContain('If "age-years" is always a whole number, say "whole": true in facts.json.');
    (files.get('facts.json') as Json).facts[2].type.whole = true;
    expect(await said(files)).toEqual([]);
  });
});

describe('Nothing stands alone', () => {
  refuses(
    'refuses a fault that changes nothing anybody sees',
    'findings/start-up.json',
    (finding) => {
      finding.given['host-supply'] = structuredClone(finding.leak);
    },
    'rules/faults/host-supply.json: no finding looks any different when "host-supply" is there. Give at least one finding a row for it that differs from the leak, or delete the fault.',
  );
  refuses(
    'knows that a row that is surely normal changes nothing either',
    'findings/start-up.json',
    (finding) => {
      finding.given['host-supply'].p = { desktop: 1 };
    },
    'rules/faults/host-supply.json: no finding looks any different when "host-supply" is there. Give at least one finding a row for it that differs from the leak, or delete the fault.',
  );
  refuses(
    'refuses a fault that nothing remedies, unless it says why',
    'faults/host-supply.json',
    (fault) => {
      delete fault.noRemedy;
    },
    'rules/faults/host-supply.json: no remedy does anything about "host-supply", and the file does not say why. List it under "effects" of a remedy, or add "noRemedy" with the reason.',
  );
  refuses(
    'refuses a reason why nothing helps where something does',
    'faults/core-stage-short.json',
    (fault) => {
      fault.noRemedy = 'Too far gone.';
    },
    'rules/faults/core-stage-short.json at noRemedy: it says that nothing remedies "core-stage-short", and a remedy lists it under "effects". Take out the one that is not true.',
  );
  refuses(
    'refuses a check that waits for a symptom which the bench sees only after it',
    'checks/rail-resistances.json',
    (check) => {
      check.requires = [{ finding: 'start-up', states: ['nothing'], because: 'First things first.' }];
    },
    'rules/checks/host-swap.json at requires[0]: no check that is offered before this one yields "resistance-core". Require what an earlier check yields, or the check is never offered.',
    'rules/checks/host-swap.json at requires[1]: no check that is offered before this one yields "idle-current". Require what an earlier check yields, or the check is never offered.',
    'rules/checks/idle-current.json at requires[0]: no check that is offered before this one yields "resistance-core". Require what an earlier check yields, or the check is never offered.',
    'rules/checks/rail-resistances.json at requires[0]: no check that is offered before this one yields "start-up". Require what an earlier check yields, or the check is never offered.',
  );
  refuses(
    'refuses words of an owner that rule a state out',
    'owner-words/artifacts.json',
    (rule) => {
      rule.event.params.weights.nothing = 0;
    },
    'rules/owner-words/artifacts.json at event.params.weights.nothing: these words would rule "nothing" out for good. Give it a weight above 0: an owner can be wrong about anything.',
  );
  refuses(
    'refuses a finding no check can yield',
    'checks/x-ray.json',
    (check) => {
      check.yields = ['resistance-core'];
    },
    'rules/findings/ball-x-ray.json: no check yields "ball-x-ray". List it under "yields" of a check, or delete it.',
  );
  refuses('asks no check for what the owner tells', 'checks/host-swap.json', (check) => {
    check.yields = ['host-swap'];
  });
  refuses(
    'refuses checks that wait for each other',
    'checks/idle-current.json',
    (check) => {
      check.requires.push({ finding: 'host-swap', states: ['works'], because: 'First things first.' });
    },
    'rules/checks/host-swap.json at requires[1]: no check that is offered before this one yields "idle-current". Require what an earlier check yields, or the check is never offered.',
    'rules/checks/idle-current.json at requires[1]: no check that is offered before this one yields "host-swap". Require what an earlier check yields, or the check is never offered.',
  );
  refuses(
    'refuses a check that wants a finding in two states at once',
    'checks/x-ray.json',
    (check) => {
      check.requires = [
        { finding: 'resistance-core', states: ['normal'], because: 'One.' },
        { finding: 'resistance-core', states: ['low', 'short'], because: 'Two.' },
      ];
    },
    'rules/checks/x-ray.json at requires[1]: "resistance-core" would have to be in two states at once. Require what an earlier check yields, or the check is never offered.',
  );
});

describe('Nothing is written down for nothing', () => {
  it('refuses a caution nobody is shown, a preparation nobody needs and a question no rule asks', async () => {
    const files = smallFiles();
    files.set('cautions/acid.json', { id: 'acid', text: 'Acid burns.', basis: 'practice' });
    const supply = files.get('preparations/limited-supply.json') as object;
    files.set('preparations/cooler-off.json', { ...supply, id: 'cooler-off' });
    const facts = (files.get('facts.json') as Json).facts;
    facts.push({ ...facts[1], id: 'knocked' });
    expect(await said(files)).toEqual([
      'rules/cautions/acid.json: nobody is ever shown the caution "acid". Name it in a check, a remedy or a gate, or delete it.',
      'rules/facts.json at facts[4]: no rule asks for "knocked", so the question is asked for nothing. Use it in a rule, or delete it.',
      'rules/preparations/cooler-off.json: nobody needs the preparation "cooler-off". Name it in a check or a remedy, or delete it.',
    ]);
  });
  refuses(
    'refuses wear by a clock that nobody reads',
    'faults/core-joint-crack.json',
    (fault) => {
      fault.wear.clock = 'hours';
    },
    'rules/faults/core-joint-crack.json at wear.clock: wear by hours runs on the fact "hours-of-use", and there is no such number. Add the fact "hours-of-use" to facts.json, or take the wear out.',
  );
});

describe('Safety', () => {
  refuses(
    'refuses power before the resistance of every rail is known',
    'checks/idle-current.json',
    (check) => {
      check.requires = [];
    },
    'rules/checks/idle-current.json at requires: "idle-current" powers the card and does not ask for "resistance-core" first. Require "resistance-core" in every state but short: resistance before voltage before image.',
  );
  refuses(
    'refuses power into a short',
    'checks/idle-current.json',
    (check) => {
      check.requires[0].states.push('short');
    },
    'rules/checks/idle-current.json at requires[0].states: "idle-current" powers the card and is offered with a rail short to ground. Take short out of the states.',
  );
  refuses(
    'refuses heat without a caution',
    'remedies/reball-core.json',
    (remedy) => {
      remedy.cautions = [];
    },
    'rules/remedies/reball-core.json at cautions: "reball-core" heats the board and carries no caution. Name the cautions that go with hot work: burns, fumes, lead, flammable cleaner.',
  );
});

describe('Sources', () => {
  refuses(
    'refuses a published figure without source and place',
    'faults/core-stage-short.json',
    (fault) => {
      fault.share.basis = 'published';
    },
    'rules/faults/core-stage-short.json at share.place: a source without the place inside it. Say which table, clause, equation or page, so that somebody can look it up.',
    'rules/faults/core-stage-short.json at share.source: a standard or published figure without a source. Name the id of a file in sources/, or call it practice or estimate if that is what it is.',
  );
  refuses(
    'refuses a source that is none',
    'faults/core-stage-short.json',
    (fault) => {
      fault.share = { p: 0.2, n: 40, basis: 'published', source: 'shop-safty', place: 'table 1' };
    },
    'rules/faults/core-stage-short.json at share.source: there is no source "shop-safty". Did you mean "shop-safety"? Correct it, or add sources/shop-safty.json.',
  );
  refuses(
    'refuses a caution from a standard that names no place in it, and a source that nobody uses',
    'cautions/hot-work.json',
    (caution) => {
      delete caution.source;
      delete caution.place;
    },
    'rules/cautions/hot-work.json at place: a source without the place inside it. Say which table, clause, equation or page, so that somebody can look it up.',
    'rules/cautions/hot-work.json at source: a caution with the basis standard and no source. Name the id of a file in sources/, or call it practice or estimate if that is what it is.',
    'rules/sources/shop-safety.json: nothing cites "shop-safety". Cite it where a number or caution comes from it, or delete it.',
  );
});

describe('All problems at once', () => {
  it('lists what is wrong in one file beside what is wrong in another, by file and path', async () => {
    const files = brokenIn('faults/core-stage-short.json', (fault) => {
      fault.share = { p: 3 };
      delete fault.about;
    });
    (files.get('findings/host-swap.json') as Json).leak.p.works = 0.5;
    (files.get('stops/return.json') as Json).minutes.high = 0;
    expect((await said(files)).map((sentence) => sentence.split(': ')[0])).toEqual([
      'rules/faults/core-stage-short.json at about',
      'rules/faults/core-stage-short.json at share.basis',
      'rules/faults/core-stage-short.json at share.n',
      'rules/faults/core-stage-short.json at share.p',
      'rules/findings/host-swap.json at leak.p',
      'rules/stops/return.json at minutes',
    ]);
  });

  it('does not call the id of a file unknown because that file has a mistake of its own', async () => {
    const problems = await said(
      brokenIn('findings/resistance-core.json', (finding) => {
        delete finding.question;
      }),
    );
    expect(problems).toEqual([
      'rules/findings/resistance-core.json at question: "question" is missing. Add it; the schema in rules/schemas says how.',
    ]);
  });
});
