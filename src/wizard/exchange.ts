/** What passes between the screens and the worker that holds the knowledge. */
import type { Points } from '../assess/points.ts';
import type { Assessed, Assessment } from '../assessment.ts';
import type { RemediesAnswer } from '../learning/answer.ts';
import type { LifelineAnswer } from '../lifeline.ts';
import type { Record } from '../record/schema.ts';
import type { Shop } from '../shop/schema.ts';
import type { WorksheetAnswer } from '../work-order/schema.ts';
import type { Catalogue } from './catalogue.ts';

export type ToWorker =
  /** must come first, and again for another language; null: the profile shipped with the knowledge */
  | { readonly type: 'open'; readonly shop: Shop | null; readonly language: string }
  /** where the record points, and no more */
  | { readonly type: 'point'; readonly sequence: number; readonly record: unknown }
  /** the belief after every event of the record's timeline */
  | { readonly type: 'life'; readonly sequence: number; readonly record: unknown }
  /** how long the shop's own repairs last, by these records */
  | {
      readonly type: 'remedies';
      readonly sequence: number;
      readonly records: readonly Record[];
      /** owners' silence up to this day is taken for a card that works, within the warranty; null: it is not */
      readonly silentUntil: string | null;
    }
  /** the order of the work on a record that has been assessed */
  | {
      readonly type: 'order';
      readonly sequence: number;
      readonly record: Record;
      readonly assessed: Assessed;
      /** null: the work that has begun, else the verdict's */
      readonly remedy: string | null;
    }
  | {
      readonly type: 'assess';
      readonly sequence: number;
      readonly record: unknown;
      readonly draws: number;
      readonly plan: boolean;
    };

export type FromWorker =
  /** `language`: what was asked for, whatever there was */
  | { readonly type: 'catalogue'; readonly language: string; readonly catalogue: Catalogue }
  | {
      readonly type: 'assessment';
      readonly sequence: number;
      readonly draws: number;
      readonly assessment: Assessment;
    }
  /** null: it points nowhere; the assessment says why */
  | { readonly type: 'points'; readonly sequence: number; readonly points: Points | null }
  | { readonly type: 'life'; readonly sequence: number; readonly life: LifelineAnswer }
  | { readonly type: 'order'; readonly sequence: number; readonly order: WorksheetAnswer }
  | { readonly type: 'remedies'; readonly sequence: number; readonly remedies: RemediesAnswer }
  /** of the records asked about, so many have been weighed */
  | { readonly type: 'weighed'; readonly sequence: number; readonly weighed: number }
  /** sequence null: the knowledge could not be opened at all */
  | { readonly type: 'failure'; readonly sequence: number | null; readonly message: string };
