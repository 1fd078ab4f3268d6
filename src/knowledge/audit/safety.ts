/** Order at the bench: no power before the rails are known not to be short; no hot work without a warning. */
import type { Problem } from '../knowledge.ts';
import type { AuditContext } from './context.ts';
import { parsed } from './context.ts';

const SHORT = 'short';

export function auditSafety(context: AuditContext): Problem[] {
  return [...poweredShorts(context), ...unwarnedHeat(context)];
}

/** Rails that only some cards have are left to the gate in the evidence, which knows the card. */
function poweredShorts(context: AuditContext): Problem[] {
  const rails = [...context.findings.values()].filter(
    ({ group, states, appliesWhen }) =>
      group === 'rails' && appliesWhen === undefined && states.some(({ id }) => id === SHORT),
  );
  return parsed(context.draft.checks)
    .filter(({ value }) => value.powers)
    .flatMap(({ file, value }) => [
      ...rails
        .filter(({ id }) => !value.requires.some(({ finding }) => finding === id))
        .map(({ id }) => ({
          file,
          path: 'requires',
          kind: 'power-before-resistance',
          wrong: `"${value.id}" powers the card and does not ask for "${id}" first`,
          todo: `Require "${id}" in every state but short: resistance before voltage before image.`,
        })),
      ...value.requires.flatMap(({ states }, i) =>
        states.includes(SHORT)
          ? [
              {
                file,
                path: `requires[${i}].states`,
                kind: 'power-into-short',
                wrong: `"${value.id}" powers the card and is offered with a rail short to ground`,
                todo: 'Take short out of the states.',
              },
            ]
          : [],
      ),
    ]);
}

function unwarnedHeat(context: AuditContext): Problem[] {
  return parsed(context.draft.remedies)
    .filter(({ value }) => value.heatCycles > 0 && value.cautions.length === 0)
    .map(({ file, value }) => ({
      file,
      path: 'cautions',
      kind: 'heat-without-caution',
      wrong: `"${value.id}" heats the board and carries no caution`,
      todo: 'Name the cautions that go with hot work: burns, fumes, lead, flammable cleaner.',
    }));
}
