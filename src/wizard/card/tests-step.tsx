import { useState } from 'preact/hooks';
import type { Catalogue } from '../catalogue.ts';
import { useSession } from '../session.ts';
import { isAnswered, type Section } from '../steps.ts';
import { sayMinutes } from '../words.ts';
import { ClosedGate } from './closed-gate.tsx';
import { HowTo } from './how-to.tsx';
import { gateOf } from './power.ts';
import { Questions } from './questions-step.tsx';

interface Props {
  readonly sections: readonly Section[];
  readonly catalogue: Catalogue;
}

/** Tests in the order of the catalogue; a closed one shows why in place of its questions. */
export function TestsStep({ sections, catalogue }: Props) {
  const { adviser, desk } = useSession();
  const [anyway, setAnyway] = useState<ReadonlySet<string>>(new Set());
  const { assessment } = adviser.advice.value;
  const record = desk.value?.record;
  return (
    <>
      {sections.map((section) => {
        const { check, questions } = section;
        const gate = gateOf(check, assessment);
        const answered = record !== undefined && questions.some((question) => isAnswered(record, question));
        const open = gate.open || answered || (check !== null && anyway.has(check.id));
        return (
          <section class="procedure" data-open={open} key={check?.id ?? 'loose'}>
            {check !== null && (
              <header>
                <h2>
                  {check.name} <small>{sayMinutes(check.minutes)}</small>
                </h2>
                <p>{check.purpose}</p>
                {open && <HowTo of={check} catalogue={catalogue} />}
              </header>
            )}
            {open ? (
              <Questions questions={questions} />
            ) : (
              <ClosedGate gate={gate} onAnyway={() => setAnyway(new Set([...anyway, check?.id ?? '']))} />
            )}
          </section>
        );
      })}
    </>
  );
}
