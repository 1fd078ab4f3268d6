import type { Record } from '../../record/schema.ts';
import type { Catalogue } from '../catalogue.ts';

export function ProfileZone(_: { readonly record: Record; readonly catalogue: Catalogue }) {
  return null;
}
