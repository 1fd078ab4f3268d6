/**
 * A knowledge just large enough for evidence: three rails (one of which only some cards have), a supply to limit the
 * current, an owner. Invented for tests; the numbers mean nothing beyond them. Not audited, on purpose: several tests
 * need rules that the audit would refuse.
 */
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import type { Check, Finding, Remedy, Rule, RuleConditions, RuleEvent, Window } from '../../src/knowledge/schema.ts';
import type { Record as CardRecord, Event } from '../../src/record/schema.ts';
import type { Shop } from '../../src/shop/schema.ts';

const estimate = { basis: 'estimate' } as const;
const minutes = { low: 3, likely: 5, high: 9, ...estimate };

export function finding(id: string, states: readonly string[], appliesWhen?: RuleConditions): Finding {
  return {
    id,
    group: 'rails',
    name: `The ${id}`,
    question: `What of ${id}?`,
    states: states.map((state) => ({ id: state, name: state, owner: state })),
    leak: { p: { [states[0]!]: 1 }, n: 10, ...estimate },
    given: {},
    ...(appliesWhen ? { appliesWhen } : {}),
  };
}

function check(id: string, yields: string[], powers: boolean, more: Partial<Check> = {}): Check {
  return {
    id,
    name: `Check ${id}`,
    purpose: 'to know',
    yields,
    minutes,
    preparations: [],
    powers,
    requires: [],
    equipment: [],
    howTo: ['do it'],
    cautions: [],
    ...more,
  };
}

function remedy(id: string, equipment: string[]): Remedy {
  return {
    id,
    kind: 'service',
    name: id,
    owner: id,
    minutes,
    verifyMinutes: minutes,
    preparations: [],
    parts: [],
    heatCycles: 0,
    equipment,
    effects: {},
    induces: {},
    howTo: ['do it'],
    cautions: [],
  };
}

const edge = (at: number, tolerance: number) => ({ at, tolerance, ...estimate });

export function rule(
  id: string,
  conditions: RuleConditions,
  event: RuleEvent,
  unknownMeans?: NonNullable<Rule['unknownMeans']>,
): Rule {
  return { id, about: id, conditions, event, ...(unknownMeans ? { unknownMeans } : {}), ...estimate };
}

const is = (fact: string, value: string | number | boolean): RuleConditions => ({ fact, operator: 'equal', value });

export const CORE_LARGE: Window = {
  id: 'core-large',
  finding: 'resistance-core',
  name: 'core of a large die',
  quantity: 'resistance',
  bands: ['short', 'low', 'normal', 'high'],
  edges: [edge(0.03, 0.3), edge(0.1, 0.3), edge(4, 0.5)],
  relative: [edge(0.2, 0.15), edge(0.6, 0.1), edge(2.5, 0.15)],
  overRange: 'high',
};
const CORE_SMALL: Window = { ...CORE_LARGE, id: 'core-small', edges: [edge(0.1, 0.3), edge(0.6, 0.3), edge(20, 0.5)] };
const SECOND: Window = { ...CORE_LARGE, id: 'core-second', finding: 'resistance-core-second' };
const MEMORY: Window = {
  ...CORE_LARGE,
  id: 'memory',
  finding: 'resistance-memory',
  edges: [edge(0.5, 0.3), edge(3, 0.3), edge(300, 0.5)],
};
export const VOLTAGE_CORE: Window = {
  id: 'voltage-core',
  finding: 'voltage-core',
  name: 'core voltage',
  quantity: 'voltage',
  bands: ['absent', 'low', 'in-tolerance', 'high'],
  edges: [edge(0.2, 0.2), edge(0.6, 0.05), edge(1.25, 0.03)],
};

export const THREE_RAILS: Knowledge = {
  version: '0000000000000000',
  faults: [],
  findings: [
    finding('start-up', ['desktop', 'no-image', 'rails-missing']),
    finding('look-core', ['clean', 'old-flux']),
    finding('resistance-core', ['normal', 'high', 'low', 'short']),
    finding('resistance-core-second', ['normal', 'high', 'low', 'short'], { all: [is('second-core-rail', true)] }),
    finding('resistance-memory', ['normal', 'high', 'low', 'short']),
    finding('voltage-core', ['in-tolerance', 'low', 'high', 'absent']),
    finding('idle-input-current', ['normal', 'high']),
    finding('memory-test', ['clean', 'one-chip', 'everywhere']),
    finding('hot-spot', ['none', 'core', 'power-stage']),
  ],
  preparations: [],
  checks: [
    check('boot-test', ['start-up'], true),
    check('cooler-off', ['look-core'], false),
    check('rail-resistances', ['resistance-core', 'resistance-core-second', 'resistance-memory'], false),
    check('rails-on-limited-supply', ['voltage-core'], true, { equipment: ['limited-supply'] }),
    check('idle-current', ['idle-input-current'], true, { equipment: ['limited-supply'] }),
    check('memory-test', ['memory-test'], true, {
      requires: [
        {
          finding: 'resistance-memory',
          states: ['normal', 'high', 'low'],
          because: 'The memory rail must not be short.',
        },
        { finding: 'start-up', states: ['desktop', 'no-image'], because: 'The card must be detected.' },
      ],
    }),
    check('injection', ['hot-spot'], false, {
      equipment: ['injection-supply'],
      requires: [
        { finding: 'resistance-core', states: ['low', 'short'], because: 'Only a low rail warms under injection.' },
      ],
    }),
  ],
  remedies: [remedy('replace-fans', []), remedy('reflow-core', ['hot-air-station'])],
  stops: [],
  procedures: [],
  holdPoints: [],
  packages: [],
  windows: [CORE_LARGE, CORE_SMALL, SECOND, MEMORY, VOLTAGE_CORE],
  sources: [],
  cautions: [],
  facts: [
    {
      id: 'die-size',
      name: 'Die size',
      question: 'How large?',
      type: { kind: 'choice', values: ['small', 'medium', 'large'].map((id) => ({ id, name: id })) },
      step: 'card',
    },
    {
      id: 'second-core-rail',
      name: 'Second core rail',
      question: 'Has it one?',
      type: { kind: 'yes-no' },
      step: 'card',
    },
    {
      id: 'age-years',
      name: 'Age',
      question: 'How old?',
      type: { kind: 'number', unit: 'years', min: 0, max: 20 },
      step: 'card',
    },
    {
      id: 'memory-chips',
      name: 'Memory chips',
      question: 'How many?',
      type: { kind: 'number', unit: '', min: 0, max: 32, whole: true },
      step: 'card',
    },
    { id: 'mined', name: 'Mined', question: 'Was it mined with?', type: { kind: 'yes-no' }, step: 'history' },
    { id: 'liquid', name: 'Liquid', question: 'Any liquid?', type: { kind: 'yes-no' }, step: 'history' },
    {
      id: 'owner-words',
      name: "Owner's words",
      question: 'What is said?',
      type: { kind: 'set', values: ['no-display', 'artifacts', 'smell'].map((id) => ({ id, name: id })) },
      step: 'symptoms',
    },
    {
      id: 'seen-look-core',
      name: 'Look of the core',
      question: 'derived',
      type: { kind: 'choice', values: ['clean', 'old-flux'].map((id) => ({ id, name: id })) },
      step: 'derived',
    },
  ],
  population: {
    moreThanOneFault: { p: 0.2, n: 20, ...estimate },
    newFaultsPerYear: { rate: 0.05, n: 20, ...estimate },
  },
  bench: {
    equipment: [
      { id: 'limited-supply', name: 'Current-limited bench supply' },
      { id: 'hot-air-station', name: 'Hot-air station' },
    ],
    parts: [],
  },
  rules: {
    history: [
      rule(
        'mined',
        { all: [is('mined', true)] },
        { type: 'history', params: { factors: { 'fan-failed': 2, 'paste-degraded': 3 }, spread: 0.3 } },
      ),
      rule(
        'no-flux-seen',
        { all: [{ fact: 'seen-look-core', operator: 'notEqual', value: 'old-flux' }] },
        { type: 'history', params: { factors: { 'rework-bridge': 0.1 }, spread: 0.5 } },
        { 'seen-look-core': 'match' },
      ),
    ],
    ownerWords: [
      rule(
        'no-display',
        { all: [{ fact: 'owner-words', operator: 'contains', value: 'no-display' }] },
        {
          type: 'evidence',
          params: { finding: 'start-up', weights: { desktop: 0.1, 'no-image': 1, 'rails-missing': 0.5 } },
        },
      ),
      rule(
        'smell',
        { all: [{ fact: 'owner-words', operator: 'contains', value: 'smell' }] },
        {
          type: 'evidence',
          params: { finding: 'start-up', weights: { desktop: 0.2, 'no-image': 0.4, 'rails-missing': 1 } },
        },
      ),
    ],
    windowChoice: [
      rule(
        'large',
        { all: [is('die-size', 'large')] },
        { type: 'window', params: { finding: 'resistance-core', window: 'core-large' } },
      ),
      rule(
        'small',
        { all: [is('die-size', 'small')] },
        { type: 'window', params: { finding: 'resistance-core', window: 'core-small' } },
      ),
      rule(
        'second',
        { all: [is('second-core-rail', true)] },
        { type: 'window', params: { finding: 'resistance-core-second', window: 'core-second' } },
        { 'second-core-rail': 'match' },
      ),
      rule(
        'memory',
        { any: [is('mined', true), is('mined', false)] },
        { type: 'window', params: { finding: 'resistance-memory', window: 'memory' } },
        { mined: 'match' },
      ),
      rule(
        'voltage',
        { any: [is('mined', true), is('mined', false)] },
        { type: 'window', params: { finding: 'voltage-core', window: 'voltage-core' } },
        { mined: 'match' },
      ),
    ],
    gates: [
      rule(
        'liquid-first',
        { all: [is('liquid', true)] },
        {
          type: 'close',
          params: { checks: ['boot-test'], remedies: ['replace-fans'], reason: 'Clean and dry the board first.' },
        },
      ),
      rule(
        'liquid-damage',
        { all: [is('liquid', true)] },
        { type: 'damage', params: { remedies: ['reflow-core'], factor: 2, spread: 0.2 } },
      ),
      rule(
        'liquid-caution',
        { all: [is('liquid', true)] },
        { type: 'caution', params: { caution: 'clean-before-power' } },
      ),
    ],
  },
  network: { faults: [], findings: [] },
};

const meter = { percent: 0.5, digits: 3, resolution: 0.01 };
export const SHOP: Shop = {
  format: 1,
  name: 'An invented bench',
  currency: 'EUR',
  locale: 'en-IE',
  labourPerHour: 60,
  consumablesPerHeatCycle: 5,
  comebackCost: 20,
  wronglySoundCost: 0,
  policy: { kind: 'no-fix-no-fee' },
  warrantyDays: 90,
  horizonDays: 365,
  margin: { fixed: 5, shareOfCost: 0.1 },
  defaultMoney: { working: 200, asIs: 30, partsAfterWork: 20 },
  parts: {},
  equipment: ['limited-supply', 'hot-air-station', 'injection-supply'],
  instruments: {
    resistance: meter,
    voltage: { percent: 0.5, digits: 2, resolution: 0.001 },
    current: meter,
    temperature: { percent: 0, digits: 2, resolution: 1 },
    percent: meter,
    ratio: meter,
  },
  leadResistance: 0,
};

export const AT = '2025-03-03T09:00:00Z';
export const arrived = (facts: Extract<Event, { type: 'arrived' }>['facts']): Event => ({
  type: 'arrived',
  at: AT,
  facts,
});
export const seen = (id: string, state: string | null, by: 'bench' | 'owner' = 'bench'): Event => ({
  type: 'seen',
  at: AT,
  finding: id,
  state,
  by,
});
export const measured = (
  id: string,
  typed: string,
  more: Partial<Extract<Event, { type: 'measured' }>> = {},
): Event => ({
  type: 'measured',
  at: AT,
  finding: id,
  typed,
  ...more,
});
export const treated = (remedyId: string): Event => ({ type: 'treated', at: AT, remedy: remedyId, worked: null });
export const record = (...timeline: Event[]): CardRecord => ({
  format: 1,
  id: 'card',
  title: 'An invented card',
  timeline,
});
