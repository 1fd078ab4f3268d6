import type { ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { messages } from '../language.ts';

/**
 * A part of the wizard that is loaded when it is first shown, so that the first screen need not wait for it. Its size and
 * place on the page are those of the part: until it is there, nothing is shown but that it comes.
 */
export function later<Props extends object>(load: () => Promise<ComponentType<Props>>): ComponentType<Props> {
  let loaded: ComponentType<Props> | null = null;
  return function Later(props: Props) {
    const [Part, setPart] = useState<ComponentType<Props> | null>(() => loaded);
    const [failed, setFailed] = useState(false);
    useEffect(() => {
      if (Part !== null) return;
      load().then(
        (part) => {
          loaded = part;
          setPart(() => part);
        },
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
