/** The compiled model whole, as plain JSON: enough to recompute any posterior by brute force without this program. */
import type { Knowledge } from './knowledge.ts';
import type { Chance, Finding, Remedy, Row } from './schema.ts';

export const EXPORT_FORMAT = 1;

/**
 * The knowledge as one JSON value. What is a probability with a basis in `rules/` is its plain mean here; its equivalent
 * sample size stands beside it under a name that ends in `Size`.
 *
 * - `faults[i]`: `share` s and `odds` s / (1 - s) among arriving cards, before kappa and history.
 * - `faults[i].latent`: of what a remedy causes of it, the share that is dormant at first; `findings[j].ofTheWork`: dormant faults
 *   influence it as active ones do, after work;
 * - `findings[j]`: `states` from normal to abnormal; `leak` and `given[fault]`, one probability per state, summing to 1;
 *   faults not under `given` leave the finding alone.
 * - `population.moreThanOneFault`: kappa is the number for which P(two faults or more) is this, with odds kappa s / (1 - s)
 *   and every set h of at most K faults (K is 3 unless an assessment says otherwise) as likely as the product of its odds;
 *   where `noFault` is stated, the empty set weighs what makes its chance that figure.
 * - `remedies[k].effects[fault]`: chances that one attempt `cures` or only `masks` an active fault; `induces[fault]`:
 *   chance that it causes one that is absent.
 * - `procedures`, `holdPoints`, `packages`, `checks`, `windows`, `rules`, `facts`, `cautions`, `sources`, `stops`, `preparations`, `bench`: as in their files.
 *
 * The posterior: an assessment's `audit` gives `odds` (kappa and the card's history included) and `weights`, a list w
 * with one entry per state for every finding that was observed. With F_row(x) the sum of a row up to state x,
 *
 *     P(h | e) is proportional to  product over f in h of odds[f]
 *                                  * product over observed findings of  sum over x of w(x) (C(x) - C(x - 1)),
 *     C(x) = F_leak(x) * product over f in h of F_given[f](x),   C(-1) = 0
 *
 * over every set h of at most K faults. For the empty set the product of odds is the assessment's `prior.empty`, which
 * is 1 unless `noFault` is stated. A fault's chance is the sum over the sets it is in.
 */
export function exportKnowledge(knowledge: Knowledge) {
  const { population } = knowledge;
  return {
    format: EXPORT_FORMAT,
    knowledge: knowledge.version,
    faults: knowledge.faults.map(({ share, latent, $schema: _, ...fault }) => ({
      ...fault,
      ...(latent ? { latent: latent.p, latentSize: latent.n } : {}),
      share: share.p,
      shareSize: share.n,
      odds: share.p / (1 - share.p),
      basis: share.basis,
    })),
    findings: knowledge.findings.map(exportFinding),
    population: {
      moreThanOneFault: population.moreThanOneFault.p,
      moreThanOneFaultSize: population.moreThanOneFault.n,
      noFault: population.noFault?.p ?? null,
      noFaultSize: population.noFault?.n ?? null,
      newFaultsPerYear: population.newFaultsPerYear.rate,
      newFaultsPerYearSize: population.newFaultsPerYear.n,
    },
    remedies: knowledge.remedies.map(exportRemedy),
    procedures: knowledge.procedures.map(plain),
    holdPoints: knowledge.holdPoints.map(plain),
    packages: knowledge.packages.map(plain),
    stops: knowledge.stops.map(plain),
    checks: knowledge.checks.map(plain),
    preparations: knowledge.preparations.map(plain),
    windows: knowledge.windows.map(plain),
    facts: knowledge.facts,
    rules: {
      history: knowledge.rules.history.map(plain),
      ownerWords: knowledge.rules.ownerWords.map(plain),
      windowChoice: knowledge.rules.windowChoice.map(plain),
      gates: knowledge.rules.gates.map(plain),
    },
    cautions: knowledge.cautions.map(plain),
    sources: knowledge.sources.map(plain),
    bench: plain(knowledge.bench),
  };
}

export type ExportedKnowledge = ReturnType<typeof exportKnowledge>;

function exportFinding(finding: Finding) {
  const perState = (row: Row) => finding.states.map(({ id }) => row.p[id] ?? 0);
  const rows = Object.entries(finding.given);
  return {
    id: finding.id,
    group: finding.group,
    name: finding.name,
    states: finding.states.map(({ id }) => id),
    stateNames: finding.states.map(({ name }) => name),
    leak: perState(finding.leak),
    leakSize: finding.leak.n,
    given: Object.fromEntries(rows.map(([fault, row]) => [fault, perState(row)])),
    givenSize: Object.fromEntries(rows.map(([fault, row]) => [fault, row.n])),
    ...(finding.ofTheWork ? { ofTheWork: true as const } : {}),
    ...(finding.appliesWhen ? { appliesWhen: finding.appliesWhen } : {}),
  };
}

function exportRemedy({ effects, induces, $schema: _, ...remedy }: Remedy) {
  const means = (chances: { readonly [fault: string]: Chance }) =>
    Object.fromEntries(Object.entries(chances).map(([fault, chance]) => [fault, chance.p]));
  return {
    ...remedy,
    effects: Object.fromEntries(
      Object.entries(effects).map(([fault, { cures, masks }]) => [fault, { cures: cures.p, masks: masks?.p ?? 0 }]),
    ),
    effectsSize: Object.fromEntries(
      Object.entries(effects).map(([fault, { cures, masks }]) => [fault, { cures: cures.n, masks: masks?.n ?? null }]),
    ),
    induces: means(induces),
    inducesSize: Object.fromEntries(Object.entries(induces).map(([fault, chance]) => [fault, chance.n])),
  };
}

function plain<T extends { readonly $schema?: string | undefined }>({ $schema: _, ...rest }: T): Omit<T, '$schema'> {
  return rest;
}
