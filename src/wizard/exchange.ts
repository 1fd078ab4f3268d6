/** What passes between the screens and the worker that holds the knowledge. */
import type { Assessment } from '../assessment.ts';
import type { Shop } from '../shop/schema.ts';
import type { Catalogue } from './catalogue.ts';

export type ToWorker =
  /** must come first; null: the profile shipped with the knowledge */
  | { readonly type: 'open'; readonly shop: Shop | null }
  | {
      readonly type: 'assess';
      readonly sequence: number;
      readonly record: unknown;
      readonly draws: number;
      readonly plan: boolean;
    };

export type FromWorker =
  | { readonly type: 'catalogue'; readonly catalogue: Catalogue }
  | {
      readonly type: 'assessment';
      readonly sequence: number;
      readonly draws: number;
      readonly assessment: Assessment;
    }
  /** sequence null: the knowledge could not be opened at all */
  | { readonly type: 'failure'; readonly sequence: number | null; readonly message: string };
