import type { ComponentChild } from 'preact';
import type { Catalogue } from '../catalogue.ts';
import { jumpTo } from '../frame/jump.ts';
import { useSession } from '../session.ts';
import { factKey, isStep } from '../steps.ts';

interface Props {
  readonly text: string;
  readonly catalogue: Catalogue;
}

/** A reason of the rules; an answer it asks for in quotes is a way to that question, which has no name on the screen. */
export function ReasonWords({ text, catalogue }: Props) {
  const session = useSession();
  return (
    <>
      {text.split(/(["„“][^"„“”]+["“”])/).map((part): ComponentChild => {
        const name = /^["„“](.+)["“”]$/.exec(part)?.[1];
        const fact = name === undefined ? undefined : catalogue.facts.find((known) => known.name === name);
        if (fact === undefined || !isStep(fact.step)) return part;
        const { step } = fact;
        return (
          <button
            type="button"
            class="quiet in-line"
            key={fact.id}
            onClick={() => jumpTo(session, step, factKey(fact.id))}
          >
            {fact.name}
          </button>
        );
      })}
    </>
  );
}
