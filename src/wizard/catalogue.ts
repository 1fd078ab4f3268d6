/** What the screens need of the knowledge: names, questions and procedures, no numbers. The worker makes it, so that the rules stay there. */
import type { Quantity } from '../evidence/quantity.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { FactDefinition, Site } from '../knowledge/schema.ts';
import { type OwnerWordings, ownerWordings } from '../letter/owner-wordings.ts';
import type { Shop } from '../shop/schema.ts';
import { type FactUse, usesOfFacts } from './fact-uses.ts';

export interface FindingView {
  readonly id: string;
  readonly group: string;
  readonly name: string;
  readonly question: string;
  readonly states: readonly { readonly id: string; readonly name: string; readonly owner: string }[];
  /** the finding can be measured: what, and the sign of its unit */
  readonly reading: { readonly quantity: Quantity; readonly unit: string } | null;
}

export interface CheckView {
  readonly id: string;
  readonly name: string;
  readonly purpose: string;
  readonly yields: readonly string[];
  readonly minutes: number;
  readonly powers: boolean;
  readonly howTo: readonly string[];
  readonly cautions: readonly string[];
}

export interface RemedyView {
  readonly id: string;
  readonly name: string;
  readonly parts: readonly string[];
  readonly howTo: readonly string[];
  readonly cautions: readonly string[];
}

export interface Catalogue {
  readonly version: string;
  /** what its texts are written in */
  readonly language: string;
  readonly facts: readonly FactDefinition[];
  /** by id of the fact */
  readonly factUses: { readonly [fact: string]: FactUse };
  readonly findings: readonly FindingView[];
  readonly checks: readonly CheckView[];
  readonly remedies: readonly RemedyView[];
  readonly faults: readonly {
    readonly id: string;
    readonly site: Site;
    readonly name: string;
    readonly about: string;
  }[];
  readonly cautions: readonly { readonly id: string; readonly text: string }[];
  readonly parts: readonly { readonly id: string; readonly name: string }[];
  readonly shop: Shop;
  /** the rules' wordings for the owner of a card */
  readonly owner: OwnerWordings;
}

const UNIT_SIGNS: { readonly [quantity in Quantity]: string } = {
  resistance: 'Ω',
  voltage: 'V',
  current: 'A',
  temperature: '°C',
  percent: '%',
  ratio: '',
};

export function makeCatalogue(knowledge: Knowledge, shop: Shop): Catalogue {
  const quantities = new Map(knowledge.windows.map((window) => [window.finding, window.quantity]));
  return {
    version: knowledge.version,
    language: knowledge.language ?? 'en',
    factUses: Object.fromEntries(usesOfFacts(knowledge)),
    facts: knowledge.facts.filter((fact) => fact.step !== 'derived'),
    findings: knowledge.findings.map(({ id, group, name, question, states }) => {
      const quantity = quantities.get(id);
      const reading = quantity === undefined ? null : { quantity, unit: UNIT_SIGNS[quantity] };
      return { id, group, name, question, states, reading };
    }),
    checks: knowledge.checks.map(({ id, name, purpose, yields, minutes, powers, howTo, cautions }) => {
      return { id, name, purpose, yields, minutes: minutes.likely, powers, howTo, cautions };
    }),
    remedies: knowledge.remedies.map(({ id, name, parts, howTo, cautions }) => ({ id, name, parts, howTo, cautions })),
    faults: knowledge.faults.map(({ id, site, name, about }) => ({ id, site, name, about })),
    cautions: knowledge.cautions.map(({ id, text }) => ({ id, text })),
    parts: knowledge.bench.parts,
    shop,
    owner: ownerWordings(knowledge),
  };
}
