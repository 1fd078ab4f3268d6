/** The balls that this work places: what becomes of them by what is on the record, or that nobody has measured them. */
import { judgeBalls } from '../ball-grid/judge-balls.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Procedure } from '../knowledge/schema.ts';
import type { Record as CardRecord } from '../record/schema.ts';
import type { BallsLine, SolderLine } from './schema.ts';

/** The solder of the work is that of its balls, where nobody says otherwise. */
export function ballsLine(
  { packages, language }: Pick<Knowledge, 'packages' | 'language'>,
  procedure: Procedure,
  { balls }: Pick<CardRecord, 'balls'>,
  solder: SolderLine | null,
): BallsLine | null {
  const kind = packages.find(({ id }) => id === procedure.package);
  if (!procedure.balls || !kind) return null;
  const given = balls?.[kind.id];
  const joint =
    given === undefined || Object.keys(given).length === 0
      ? null
      : judgeBalls(given, language ?? 'en', { ballAlloy: solder?.alloy });
  return { package: kind.id, name: kind.name, joint };
}
