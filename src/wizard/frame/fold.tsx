import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';

/** From this width on nothing is gained by folding. */
const WIDE = '(min-width: 60em)';

interface Props {
  readonly heading: string;
  /** what waits inside, in a word or a figure */
  readonly holds?: string | undefined;
  readonly kind?: string | undefined;
  readonly children: ComponentChildren;
}

/** A section that is unfolded where there is room and folded on a phone, under a heading like any other. */
export function Fold({ heading, holds, kind, children }: Props) {
  const [open] = useState(() => matchMedia(WIDE).matches);
  return (
    <section class={kind}>
      <details class="fold" open={open}>
        <summary>
          <h2>{heading}</h2>
          {holds !== undefined && <small>{holds}</small>}
        </summary>
        {children}
      </details>
    </section>
  );
}
