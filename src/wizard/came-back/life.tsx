import { useEffect, useState } from 'preact/hooks';
import type { Lifeline } from '../../lifeline.ts';
import type { Record } from '../../record/schema.ts';
import type { Catalogue } from '../catalogue.ts';
import { useSession } from '../session.ts';
import { LifeDrawing } from './life-drawing.tsx';
import { cameBackWords } from './words.ts';

/** The life of the open card, told anew after every answer; until then the one before stands. */
export function Life({ record, catalogue }: { readonly record: Record; readonly catalogue: Catalogue }) {
  const { adviser } = useSession();
  const { life: words } = cameBackWords.value;
  const [told, setTold] = useState<Lifeline | 'failed' | null>(null);
  const { pending } = adviser.advice.value;
  useEffect(() => {
    // the assessment goes first: the same worker tells both
    if (pending) return;
    let wanted = true;
    void adviser.lifeOf(record).then((life) => {
      if (wanted && life !== null) setTold(life.kind === 'lifeline' ? life : 'failed');
    });
    return () => {
      wanted = false;
    };
  }, [record, pending]);
  return (
    <section class="life-section" aria-busy={told === null}>
      <h2>{words.heading}</h2>
      <p class="about">{words.about}</p>
      {told === null && <p class="waiting">{words.working}</p>}
      {told === 'failed' && <p>{words.failed}</p>}
      {told !== null && told !== 'failed' && <LifeDrawing life={told} catalogue={catalogue} />}
    </section>
  );
}
