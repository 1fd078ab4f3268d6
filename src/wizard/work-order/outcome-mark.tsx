import type { OrderState } from '../../work-order/schema.ts';

const DRAWN: { readonly [standing in Exclude<OrderState['steps'][number]['standing'], 'closed'>]: string } = {
  passed: 'M5 12.5 10 17.5 19 7',
  failed: 'M6 6l12 12M18 6 6 18',
  'left-out': 'M6 12h12',
  open: 'M8 5l9 7-9 7z',
};

/** Beside the word for it. */
export function OutcomeMark({ standing }: { readonly standing: keyof typeof DRAWN }) {
  return (
    <svg class="mark" viewBox="0 0 24 24" aria-hidden="true">
      <path d={DRAWN[standing]} stroke-linecap="round" stroke-linejoin="round" />
    </svg>
  );
}
