import type { RefObject } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';

/** How wide an element is, in whole CSS pixels, so that a chart is drawn at its size and its words stay as large as others. */
export function useWidth<Of extends Element>(usual: number): readonly [RefObject<Of | null>, number] {
  const ref = useRef<Of>(null);
  const [width, setWidth] = useState(usual);
  useEffect(() => {
    const element = ref.current;
    if (element === null) return;
    const watch = new ResizeObserver(([entry]) => {
      const wide = Math.floor(entry?.contentRect.width ?? 0);
      if (wide > 0) setWidth(wide);
    });
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return [ref, width];
}
