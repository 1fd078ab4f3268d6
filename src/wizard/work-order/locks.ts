/** Why a hold point is still closed, in the order of the bench: resistance before voltage before image. */
import type { OrderState, OrderStep } from '../../work-order/schema.ts';

type Standing = OrderState['steps'][number]['standing'];

export type Lock =
  /** the one before it · power before resistance · image before voltage: `opens` must be recorded first */
  { readonly kind: 'next' | 'power' | 'image'; readonly opens: OrderStep } | { readonly kind: 'over' | 'order' };

interface Order {
  readonly steps: readonly OrderStep[];
  readonly state: OrderState;
}

const isBehind = (standing: Standing | undefined): boolean => standing === 'passed' || standing === 'left-out';

/** Null: it is not closed. */
export function lockOf({ steps, state }: Order, at: number): Lock | null {
  const step = steps[at]!;
  const standing = (one: OrderStep) => state.steps.find(({ step: id }) => id === one.id)?.standing;
  if (standing(step) !== 'closed') return null;
  if (state.kind === 'over') return { kind: 'over' };
  if (state.kind === 'out-of-order') return { kind: 'order' };
  const waiting = steps.slice(0, at).filter((one) => !isBehind(standing(one)));
  if (step.power !== null) {
    const unpowered = waiting.findLast((one) => one.power === null && proves(one));
    const voltage = waiting.findLast(({ power }) => power === 'limited');
    if (step.power === 'full' && voltage !== undefined) return { kind: 'image', opens: voltage };
    if (unpowered !== undefined) return { kind: 'power', opens: unpowered };
  }
  const before = steps[at - 1];
  return before === undefined ? null : { kind: 'next', opens: before };
}

/** Something is measured or looked at there after the work. */
const proves = ({ stage, finds }: OrderStep): boolean => stage === 'prove' && finds.length > 0;

export interface Proof {
  readonly kind: 'resistance' | 'voltage' | 'image';
  readonly step: OrderStep;
  readonly standing: Standing;
}

/** The three proofs, as far as this work has them. */
export function proofsOf({ steps, state }: Order): readonly Proof[] {
  const found: readonly (readonly [Proof['kind'], OrderStep | undefined])[] = [
    ['resistance', steps.find((step) => step.power === null && proves(step))],
    ['voltage', steps.find(({ power }) => power === 'limited')],
    ['image', steps.find(({ power }) => power === 'full')],
  ];
  return found.flatMap(([kind, step]) => {
    const standing = state.steps.find((one) => one.step === step?.id)?.standing;
    return step === undefined || standing === undefined ? [] : [{ kind, step, standing }];
  });
}
