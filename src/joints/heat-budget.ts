/** Heat cycles a board and its parts have left. */
import type { Cited } from './cited.ts';

export interface Allowance {
  readonly id: 'part-passes' | 'location-reworks' | 'board-passes';
  readonly name: string;
  readonly most: number;
  readonly cited: Cited;
}

/** Three allowances, because heat wears three things: the part, the pads where work is done, the bare board. */
export const ALLOWANCES: readonly Allowance[] = [
  {
    id: 'part-passes',
    name: 'reflow passes of a part',
    most: 3,
    cited: { source: 'reflow-passes-component-guide', place: 'soldering conditions', seen: 'seen' },
  },
  {
    id: 'location-reworks',
    name: 'reworks of one location',
    most: 1,
    cited: { source: 'ipc-rework-cycles-paper', place: 'abstract', seen: 'seen' },
  },
  {
    id: 'board-passes',
    name: 'reflow passes of the board',
    most: 6,
    cited: { source: 'ipc-tm-650-2-6-27', place: 'simulated passes', seen: 'seen' },
  },
];

export interface HeatSpent {
  /** passes of the board in its making: two where parts sit on both sides */
  readonly factoryPasses: number;
  /** heat cycles of the whole board or of its core area since, each counted once */
  readonly reworkPasses: number;
  /** reworks of the location in question: a part taken off and put on counts once */
  readonly locationReworks: number;
  /** passes the part in question has had; those of the board where it never left it */
  readonly partPasses?: number;
}

export interface HeatLeft extends Allowance {
  readonly spent: number;
  readonly left: number;
  /** left after the work in question; below nought it goes beyond the allowance */
  readonly leftAfter: number;
}

export interface NewHeat {
  readonly passes: number;
  readonly locationReworks: number;
  /** passes the part in question takes; nought for a new part that has had none */
  readonly partPasses?: number;
}

/**
 * What is left of each allowance, before and after the work in question: allowance less what was spent, less what the
 * work takes. Allowances are what parts are tested to bear, so that going beyond one is a risk and no certainty. Counts
 * are whole numbers from nought, else an error. Constant time.
 *
 * @example heatLeft({ factoryPasses: 2, reworkPasses: 1, locationReworks: 1 }, { passes: 2, locationReworks: 1 })[1].leftAfter // -1
 */
export function heatLeft(spent: HeatSpent, work: NewHeat): readonly HeatLeft[] {
  for (const count of [...Object.values(spent), ...Object.values(work)])
    if (count !== undefined && !(Number.isInteger(count) && count >= 0))
      throw new RangeError(`Heat cycles are counted in whole numbers from nought, not ${count}.`);
  const board = spent.factoryPasses + spent.reworkPasses;
  const used = {
    'part-passes': [spent.partPasses ?? board, work.partPasses ?? work.passes],
    'location-reworks': [spent.locationReworks, work.locationReworks],
    'board-passes': [board, work.passes],
  } as const;
  return ALLOWANCES.map((allowance) => {
    const [before, takes] = used[allowance.id];
    const left = allowance.most - before;
    return { ...allowance, spent: before, left, leftAfter: left - takes };
  });
}
