/** What showed itself one way and then another, with no work in between: the later counts, and it is said that it wavers. */
import type { EvidenceItem } from '../../assessment.ts';
import type { Catalogue } from '../catalogue.ts';
import { jumpTo } from '../frame/jump.ts';
import { CautionMark } from '../frame/marks.tsx';
import { messages } from '../language.ts';
import { useSession } from '../session.ts';
import { findingKey, stepOf } from '../steps.ts';

interface Props {
  readonly evidence: readonly EvidenceItem[];
  readonly catalogue: Catalogue;
}

export function ComesAndGoes({ evidence, catalogue }: Props) {
  const session = useSession();
  const { wavering } = messages.value;
  const wavers = evidence.filter(({ contradicts }) => contradicts !== undefined);
  if (wavers.length === 0) return null;
  return (
    <ul class="wavering">
      {wavers.map((item) => {
        const finding = catalogue.findings.find(({ id }) => id === item.finding);
        const before = finding?.states.find(({ id }) => id === item.contradicts)?.name ?? item.contradicts ?? '';
        return (
          <li key={item.finding}>
            <CautionMark /> <b>{wavering.comesAndGoes}</b> {wavering.said(item.name, before, item.stateName)}{' '}
            {finding !== undefined && (
              <button
                type="button"
                class="quiet"
                onClick={() => jumpTo(session, stepOf(finding), findingKey(finding.id))}
              >
                {wavering.lookAgain(item.name)}
              </button>
            )}
          </li>
        );
      })}
    </ul>
  );
}
