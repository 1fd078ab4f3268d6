/** What happened at a point of a life, in the language of the interface. */
import type { LifelinePoint } from '../../lifeline.ts';
import type { Catalogue } from '../catalogue.ts';
import { sayDays } from '../words.ts';
import { cameBackWords } from './words.ts';

export function sayPoint(point: LifelinePoint, catalogue: Catalogue): string {
  const { life } = cameBackWords.value;
  const days = point.days === null ? null : sayDays(Math.round(point.days));
  switch (point.kind) {
    case 'treated': {
      const remedy = catalogue.remedies.find(({ id }) => id === point.remedy)?.name ?? point.remedy ?? '';
      const { worked, failed, untried } = life.treated;
      return (point.worked === null ? untried : point.worked ? worked : failed)(remedy);
    }
    case 'still-working':
      return life.stillWorking(days);
    case 'came-back':
      return life.cameBack(days);
    case 'arrived':
    case 'quoted':
    case 'handed-back':
    case 'closed':
    case 'other':
      return life.points[point.kind]();
    case 'told':
    case 'found':
      return life.points[point.kind](Math.max(1, point.findings.length));
  }
}
