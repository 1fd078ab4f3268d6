/** The window that every reading of the card is held to, also where it has not been taken yet. */
import type { Assessed } from '../assessment.ts';
import type { GatheredEvidence } from '../evidence/evidence.ts';
import { UNITS } from '../knowledge/vocabulary.ts';

/** Of a finding that does not concern the card there is none. */
export function windowsView({
  windows,
  applicable,
}: Pick<GatheredEvidence, 'windows' | 'applicable'>): Assessed['windows'] {
  return [...windows]
    .filter(([finding]) => applicable.has(finding))
    .map(([finding, { id, name, quantity, edges, bands }]) => ({
      finding,
      window: id,
      name,
      unit: UNITS[quantity],
      edges: edges.map(({ at }) => at),
      bands: [...bands],
    }));
}
