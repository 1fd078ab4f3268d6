import type { Record } from '../../record/schema.ts';
import type { Catalogue } from '../catalogue.ts';
import { rename } from '../desk.ts';
import { messages } from '../language.ts';
import { TypedField } from '../questions/typed-field.tsx';
import { useSession } from '../session.ts';
import { sayShopsName } from '../shipped-names.ts';
import type { Section } from '../steps.ts';
import { MoneyFields } from '../verdict/money-fields.tsx';
import { Questions } from './questions-step.tsx';

interface Props {
  readonly record: Record;
  readonly sections: readonly Section[];
  readonly catalogue: Catalogue;
}

const ANY = () => ({ ok: true }) as const;

export function CardStep({ record, sections, catalogue }: Props) {
  const { edit } = useSession();
  const { card } = messages.value;
  return (
    <>
      <div class="title-field" data-question>
        <TypedField
          id="title"
          label={card.nameIt}
          stored={record.title}
          read={ANY}
          same={(text, stored) => text.trim() === stored || text.trim() === ''}
          onText={(text) => text.trim() !== '' && edit((now) => rename(now, text.trim()), 'title')}
          size="long"
          describedBy="title-about"
        />
        <small class="about title-about" id="title-about">
          {card.nameAbout}
        </small>
      </div>
      {sections.map((section) => (
        <Questions questions={section.questions} key={section.check?.id ?? 'loose'} />
      ))}
      <section>
        <h2>{card.worth}</h2>
        <p class="about">{card.worthAbout(sayShopsName(catalogue.shop.name))}</p>
        <MoneyFields shop={catalogue.shop} at="card" />
      </section>
    </>
  );
}
