import { signal } from '@preact/signals';
import type { ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { messages } from '../language.ts';

/** Parts asked for and not there yet: whoever waits for a screen to be drawn waits for them, too. */
export const partsComing = signal(0);

/**
 * A part of the wizard that is loaded when it is first shown, so that the first screen need not wait for it. Until it is
 * there, nothing is shown but that it comes.
 */
export function later<Props extends object>(load: () => Promise<ComponentType<Props>>): ComponentType<Props> {
  let coming: Promise<ComponentType<Props>> | null = null;
  let loaded: ComponentType<Props> | null = null;

  function start(): Promise<ComponentType<Props>> {
    if (coming !== null) return coming;
    partsComing.value = partsComing.peek() + 1;
    coming = load()
      .then((part) => {
        loaded = part;
        return part;
      })
      .finally(() => {
        partsComing.value = partsComing.peek() - 1;
      });
    return coming;
  }

  return function Later(props: Props) {
    const [Part, setPart] = useState<ComponentType<Props> | null>(() => loaded);
    const [failed, setFailed] = useState(false);
    // asked for while it is rendered: by the next frame it must be known that something is still to come
    if (Part === null) void start().catch(() => undefined);
    useEffect(() => {
      if (Part !== null) return;
      start().then(
        (part) => setPart(() => part),
        () => setFailed(true),
      );
    }, []);
    if (Part !== null) return <Part {...props} />;
    const { later: words } = messages.value;
    if (!failed) return <p class="waiting">{words.comes}</p>;
    return (
      <section class="notice">
        <p>{words.failed}</p>
        <button type="button" onClick={() => location.reload()}>
          {words.reload}
        </button>
      </section>
    );
  };
}
