/**
 * A knowledge small enough to reckon by hand, valid in every respect. Invented for tests: two faults of the card and one
 * of its host, five findings, and one of everything else. `brokenIn` breaks one thing at a time.
 */
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import { parseKnowledge } from '../../src/knowledge/parse.ts';

const estimate = { basis: 'estimate' } as const;
const minutes = { low: 3, likely: 5, high: 9, ...estimate };
const state = (id: string) => ({ id, name: id, owner: id });
const row = (p: Record<string, number>) => ({ p, n: 20, ...estimate });

const FILES = {
  'population.json': {
    moreThanOneFault: { p: 0.1, n: 50, ...estimate },
    newFaultsPerYear: { rate: 0.05, n: 20, ...estimate },
  },
  'bench.json': {
    equipment: [
      { id: 'hot-air-station', name: 'Hot-air station' },
      { id: 'limited-supply', name: 'Current-limited supply' },
    ],
    parts: [
      { id: 'solder-balls', name: 'Solder balls' },
      { id: 'power-stage', name: 'Power stage' },
      { id: 'x-ray-service', name: 'X-ray, bought in' },
    ],
  },
  'facts.json': {
    facts: [
      {
        id: 'die-size',
        name: 'Die size',
        question: 'How large is the die?',
        type: {
          kind: 'choice',
          values: [
            { id: 'small', name: 'small' },
            { id: 'medium', name: 'medium' },
            { id: 'large', name: 'large' },
          ],
        },
        step: 'card',
      },
      { id: 'mined', name: 'Mined', question: 'Was it used for mining?', type: { kind: 'yes-no' }, step: 'history' },
      {
        id: 'age-years',
        name: 'Age',
        question: 'How old is it?',
        type: { kind: 'number', unit: 'years', min: 0, max: 20 },
        step: 'card',
      },
      {
        id: 'owner-words',
        name: "Owner's words",
        question: 'What does the owner say?',
        type: {
          kind: 'set',
          values: [
            { id: 'artifacts', name: 'artifacts' },
            { id: 'no-display', name: 'no display' },
          ],
        },
        step: 'symptoms',
      },
    ],
  },
  'faults/core-joint-crack.json': {
    id: 'core-joint-crack',
    site: 'core-joints',
    name: 'Cracked balls under the core',
    owner: 'The chip has come loose from the board',
    about: 'Fatigued solder between the core package and the board.',
    share: { p: 0.1, n: 20, ...estimate },
    wear: { clock: 'years', shape: 1.5, reference: 4, ...estimate },
    relapse: { medianDays: 90, shape: 1.2, n: 5, ...estimate },
  },
  'faults/core-stage-short.json': {
    id: 'core-stage-short',
    site: 'power',
    name: 'Shorted power stage',
    owner: 'A part that feeds the chip has failed',
    about: 'A power stage of the core rail conducts to ground.',
    share: { p: 0.2, n: 40, ...estimate },
  },
  'faults/host-supply.json': {
    id: 'host-supply',
    site: 'host',
    name: 'The host supply',
    owner: 'The power supply of the computer',
    about: 'The supply of the computer the card came from.',
    share: { p: 0.05, n: 20, ...estimate },
    noRemedy: 'Nothing on the card is wrong: it goes back.',
  },
  'findings/start-up.json': {
    id: 'start-up',
    group: 'symptoms',
    name: 'Start-up',
    question: 'What happens at start-up?',
    states: [state('desktop'), state('artifacts'), state('nothing')],
    leak: row({ desktop: 0.97, artifacts: 0.02, nothing: 0.01 }),
    given: {
      'core-joint-crack': row({ desktop: 0.2, artifacts: 0.5, nothing: 0.3 }),
      'core-stage-short': row({ nothing: 1 }),
      'host-supply': row({ desktop: 0.3, nothing: 0.7 }),
    },
  },
  'findings/resistance-core.json': {
    id: 'resistance-core',
    group: 'rails',
    name: 'Core rail to ground',
    question: 'What does the core rail measure to ground?',
    states: [state('normal'), state('low'), state('short')],
    leak: row({ normal: 0.96, low: 0.03, short: 0.01 }),
    given: { 'core-stage-short': row({ low: 0.1, short: 0.9 }) },
  },
  'findings/idle-current.json': {
    id: 'idle-current',
    group: 'power-up',
    name: 'Input current at idle',
    question: 'What does the card draw at idle?',
    states: [state('normal'), state('high')],
    leak: row({ normal: 0.95, high: 0.05 }),
    given: { 'core-joint-crack': row({ normal: 0.8, high: 0.2 }) },
    appliesWhen: { all: [{ fact: 'die-size', operator: 'in', value: ['medium', 'large'] }] },
  },
  'findings/host-swap.json': {
    id: 'host-swap',
    group: 'tests',
    name: 'Known-good host',
    question: 'Does it work in a known-good host?',
    states: [state('works'), state('same-fault')],
    leak: row({ works: 0.99, 'same-fault': 0.01 }),
    given: {
      'core-joint-crack': row({ works: 0.1, 'same-fault': 0.9 }),
      'core-stage-short': row({ 'same-fault': 1 }),
    },
  },
  'findings/ball-x-ray.json': {
    id: 'ball-x-ray',
    group: 'after-rework',
    name: 'X-ray of the balls',
    question: 'What does the X-ray show?',
    states: [state('clean'), state('open-joints')],
    leak: row({ clean: 0.98, 'open-joints': 0.02 }),
    given: { 'core-joint-crack': row({ clean: 0.4, 'open-joints': 0.6 }) },
  },
  'preparations/limited-supply.json': { id: 'limited-supply', name: 'Card on the limited supply', minutes },
  'checks/rail-resistances.json': {
    id: 'rail-resistances',
    name: 'Resistance of the rails',
    purpose: 'Tells a short before power does harm.',
    yields: ['resistance-core'],
    minutes,
    preparations: [],
    powers: false,
    requires: [],
    equipment: [],
    howTo: ['Measure each rail to ground.'],
    cautions: [],
  },
  'checks/idle-current.json': {
    id: 'idle-current',
    name: 'Input current at idle',
    purpose: 'Tells a card that draws too much.',
    yields: ['idle-current'],
    minutes,
    preparations: ['limited-supply'],
    powers: true,
    requires: [{ finding: 'resistance-core', states: ['normal', 'low'], because: 'A short is never powered.' }],
    equipment: ['limited-supply'],
    howTo: ['Set the limit, then power up.'],
    cautions: ['current-limit'],
  },
  'checks/host-swap.json': {
    id: 'host-swap',
    name: 'Known-good host',
    purpose: 'Tells the card from its host.',
    yields: ['host-swap', 'start-up'],
    minutes,
    preparations: [],
    powers: true,
    requires: [
      { finding: 'resistance-core', states: ['normal', 'low'], because: 'A short is never powered.' },
      { finding: 'idle-current', states: ['normal'], because: 'The first power-up is on a limited supply.' },
    ],
    equipment: [],
    risk: { fault: 'core-stage-short', p: 0.001, n: 20, ...estimate },
    howTo: ['Try the card in the known-good computer.'],
    cautions: [],
  },
  'checks/x-ray.json': {
    id: 'x-ray',
    name: 'X-ray',
    purpose: 'Shows open joints.',
    yields: ['ball-x-ray'],
    minutes,
    preparations: [],
    powers: false,
    requires: [],
    equipment: [],
    bought: { part: 'x-ray-service', days: 3 },
    howTo: ['Send the board away.'],
    cautions: [],
  },
  'remedies/reball-core.json': {
    id: 'reball-core',
    kind: 'reball',
    name: 'Reball the core',
    owner: 'The chip is soldered anew',
    minutes: { low: 60, likely: 90, high: 150, ...estimate },
    verifyMinutes: minutes,
    preparations: [],
    parts: ['solder-balls'],
    heatCycles: 2,
    equipment: ['hot-air-station'],
    effects: { 'core-joint-crack': { cures: { p: 0.8, n: 20, ...estimate }, masks: { p: 0.1, n: 10, ...estimate } } },
    induces: { 'core-joint-crack': { p: 0.03, n: 30, ...estimate } },
    howTo: ['Lift, clean, reball, place.'],
    cautions: ['hot-work'],
  },
  'remedies/replace-power-stage.json': {
    id: 'replace-power-stage',
    kind: 'component-swap',
    name: 'Replace the power stage',
    owner: 'The failed part is replaced',
    minutes: { low: 20, likely: 30, high: 60, ...estimate },
    verifyMinutes: minutes,
    preparations: [],
    parts: ['power-stage'],
    heatCycles: 0,
    equipment: ['hot-air-station'],
    effects: { 'core-stage-short': { cures: { p: 0.85, n: 40, ...estimate } } },
    induces: {},
    howTo: ['Find it, lift it, fit another.'],
    cautions: ['hot-work'],
  },
  'procedures/reball-core.json': {
    id: 'reball-core',
    holdPoints: ['balls-in-line', 'rails-to-ground', 'rails-limited', 'image'],
    solder: 'SAC305',
    package: 'core',
    heat: { partPasses: 3, locationReworks: 1, newPart: false, ...estimate },
  },
  'procedures/replace-power-stage.json': {
    id: 'replace-power-stage',
    holdPoints: ['rails-to-ground', 'rails-limited', 'image'],
  },
  'hold-points/balls-in-line.json': {
    id: 'balls-in-line',
    stage: 'make-ready',
    name: 'Balls in line',
    howTo: ['Preheater at {preheater}, then count.'],
    passes: 'All balls are there.',
    record: ['balls that were put right'],
    ifItFails: { say: 'Replace what is missing.', leads: 'again' },
    figures: { preheater: { from: 200, unit: '°C', basis: 'practice' } },
    profile: true,
    cautions: ['hot-work'],
  },
  'hold-points/rails-to-ground.json': {
    id: 'rails-to-ground',
    stage: 'prove',
    name: 'Rails to ground',
    howTo: ['Measure each rail to ground.'],
    passes: 'No rail is short.',
    record: ['every rail'],
    ifItFails: { say: 'No power: find the short.', leads: 'again' },
    check: 'rail-resistances',
    finds: [{ finding: 'resistance-core', passes: ['normal', 'low'] }],
    cautions: [],
  },
  'hold-points/rails-limited.json': {
    id: 'rails-limited',
    stage: 'prove',
    name: 'Limited supply',
    howTo: ['Set the limit, then power up.'],
    passes: 'The current stays below the limit.',
    record: ['current drawn'],
    ifItFails: { say: 'Switch off, measure again.', leads: 'back', to: 'rails-to-ground' },
    check: 'idle-current',
    power: 'limited',
    cautions: ['current-limit'],
  },
  'hold-points/image.json': {
    id: 'image',
    stage: 'prove',
    name: 'Image',
    howTo: ['Try the card in the known-good computer.'],
    passes: 'It comes to the desktop.',
    record: ['what it did'],
    ifItFails: { say: 'The work did not help.', leads: 'end' },
    check: 'host-swap',
    power: 'full',
    cautions: [],
  },
  'packages/core.json': {
    id: 'core',
    name: 'core package',
    moistureLevel: '3',
    cautiousMoistureLevel: '5a',
    bodyMillimetres: 2,
    gridMillimetres: 30,
    factoryPasses: 2,
    ...estimate,
  },
  'stops/return.json': {
    id: 'return',
    verdict: 'return',
    name: 'Return',
    owner: 'Nothing is wrong with the card',
    minutes,
    value: 'working-if-sound',
  },
  'windows/resistance-core-large.json': {
    id: 'resistance-core-large',
    finding: 'resistance-core',
    name: 'Core rail, large die',
    quantity: 'resistance',
    bands: ['short', 'low', 'normal'],
    edges: [
      { at: 0.03, tolerance: 0.2, ...estimate },
      { at: 0.1, tolerance: 0.2, ...estimate },
    ],
    relative: [
      { at: 0.2, tolerance: 0.1, ...estimate },
      { at: 0.6, tolerance: 0.1, ...estimate },
    ],
    overRange: 'normal',
    copper: false,
  },
  'windows/resistance-core-other.json': {
    id: 'resistance-core-other',
    finding: 'resistance-core',
    name: 'Core rail, small or medium die',
    quantity: 'resistance',
    bands: ['short', 'low', 'normal'],
    edges: [
      { at: 0.05, tolerance: 0.2, ...estimate },
      { at: 0.25, tolerance: 0.2, ...estimate },
    ],
  },
  'window-choice/resistance-core-large.json': {
    id: 'resistance-core-large',
    about: 'A large die reads low.',
    ...estimate,
    conditions: { all: [{ fact: 'die-size', operator: 'equal', value: 'large' }] },
    event: { type: 'window', params: { finding: 'resistance-core', window: 'resistance-core-large' } },
  },
  'window-choice/resistance-core-other.json': {
    id: 'resistance-core-other',
    about: 'Small and medium dies read higher.',
    ...estimate,
    conditions: { all: [{ fact: 'die-size', operator: 'in', value: ['small', 'medium'] }] },
    event: { type: 'window', params: { finding: 'resistance-core', window: 'resistance-core-other' } },
  },
  'history/mined.json': {
    id: 'mined',
    about: 'Long hours at heat tire the joints.',
    ...estimate,
    conditions: { all: [{ fact: 'mined', operator: 'equal', value: true }] },
    event: { type: 'history', params: { factors: { 'core-joint-crack': 2 }, spread: 0.4 } },
  },
  'history/mined-or-old.json': {
    id: 'mined-or-old',
    about: 'Power stages age with hours, whatever the hours were for.',
    ...estimate,
    conditions: {
      any: [
        { fact: 'mined', operator: 'equal', value: true },
        { fact: 'age-years', operator: 'greaterThan', value: 8 },
      ],
    },
    event: { type: 'history', params: { factors: { 'core-stage-short': 1.5 }, spread: 0.3 } },
  },
  'owner-words/artifacts.json': {
    id: 'artifacts',
    about: 'Artifacts as the owner tells them.',
    ...estimate,
    conditions: { all: [{ fact: 'owner-words', operator: 'contains', value: 'artifacts' }] },
    event: {
      type: 'evidence',
      params: { finding: 'start-up', weights: { desktop: 0.3, artifacts: 1, nothing: 0.2 } },
    },
  },
  'gates/no-reball-old.json': {
    id: 'no-reball-old',
    about: 'An old board of which the core rail is short is not reballed.',
    basis: 'practice',
    conditions: {
      all: [
        { fact: 'age-years', operator: 'greaterThan', value: 12 },
        { not: { fact: 'seen-resistance-core', operator: 'equal', value: 'normal' } },
      ],
    },
    unknownMeans: { 'seen-resistance-core': 'match' },
    event: { type: 'close', params: { checks: [], remedies: ['reball-core'], reason: 'Too old for its heat.' } },
  },
  'cautions/hot-work.json': {
    id: 'hot-work',
    text: 'Hot air burns; extract the fumes.',
    basis: 'standard',
    source: 'shop-safety',
    place: 'section 2',
  },
  'cautions/current-limit.json': { id: 'current-limit', text: 'Set the limit before power.', basis: 'practice' },
  'sources/shop-safety.json': {
    id: 'shop-safety',
    title: 'An invented safety leaflet',
    by: 'nobody',
    seen: 'memory',
  },
};

export type SmallFile = keyof typeof FILES;

/** A fresh copy of every file, none sharing a part with another: path under rules/ -> content. */
export function smallFiles(): Map<string, unknown> {
  return new Map(Object.entries(JSON.parse(JSON.stringify(FILES))));
}

/** The files with one of them changed by `change`, which works on its plain JSON value. */
// biome-ignore lint/suspicious/noExplicitAny: broken on purpose, in ways no type allows
export function brokenIn(file: SmallFile, change: (content: any) => void): Map<string, unknown> {
  const files = smallFiles();
  change(files.get(file));
  return files;
}

export async function smallKnowledge(): Promise<Knowledge> {
  const parsed = await parseKnowledge(smallFiles());
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems, null, 2));
  return parsed.knowledge;
}
