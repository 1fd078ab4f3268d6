/** What the owner's page is written from, in the language chosen for the page. */
import { useEffect, useState } from 'preact/hooks';
import type { Tellable } from '../../letter/letter.ts';
import type { Record } from '../../record/schema.ts';
import type { Catalogue } from '../catalogue.ts';
import { LANGUAGES, type Language } from '../language.ts';
import { useSession } from '../session.ts';
import type { Told } from './interpreter.ts';

export interface Telling extends Told {
  /** the language the page can be written in now */
  readonly language: Language;
  /** the chosen language is on its way; what is here is in the one before */
  readonly coming: boolean;
}

interface Heard {
  /** the assessment it says again */
  readonly of: Tellable;
  readonly language: Language;
  /** null: it cannot be had */
  readonly told: Told | null;
}

export function useTold(assessment: Tellable, catalogue: Catalogue, record: Record, wanted: Language): Telling {
  const { adviser } = useSession();
  const [heard, setHeard] = useState<Heard | null>(null);
  const own: Told = { assessment, words: catalogue.owner };
  const same = catalogue.language === wanted;
  const { draws, pending } = adviser.advice.value;
  useEffect(() => {
    if (same || pending) return;
    let left = false;
    void adviser.tellIn(record, wanted, draws).then((told) => {
      if (!left) setHeard({ of: assessment, language: wanted, told });
    });
    return () => {
      left = true;
    };
  }, [adviser, assessment, record, wanted, same, pending, draws]);
  if (same) return { ...own, language: wanted, coming: false };
  const inWanted = heard !== null && heard.language === wanted ? heard : null;
  // what cannot be had in that language is shown as far as it can be said in it
  if (inWanted !== null && inWanted.told === null) return { ...own, language: wanted, coming: false };
  if (inWanted?.told) return { ...inWanted.told, language: wanted, coming: inWanted.of !== assessment };
  return { ...own, language: LANGUAGES.find((one) => one === catalogue.language) ?? 'en', coming: true };
}
