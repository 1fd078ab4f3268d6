import type { Assessed, CheckAdvice } from '../../assessment.ts';
import type { Catalogue } from '../catalogue.ts';
import { messages } from '../language.ts';
import { StampOf } from '../verdict/stamp.tsx';
import { capital, sayFrequency, sayPercent } from '../words.ts';
import { branchesOf, chanceOfTurning, type Limb } from './branches.ts';

interface Props {
  readonly advice: CheckAdvice;
  readonly assessed: Assessed;
  readonly catalogue: Catalogue;
}

/** What each result would do to the verdict, before the check is done: a stem that branches, one result to a row. */
export function Outcomes({ advice, assessed, catalogue }: Props) {
  const { next } = messages.value;
  const branches = branchesOf(advice, assessed.verdict);
  const turning = chanceOfTurning(branches);
  const faultName = (id: string | null) =>
    catalogue.faults.find((fault) => fault.id === id)?.name ?? next.nothingInParticular;
  return (
    <div class="outcomes">
      <h3>{next.outcomes}</h3>
      <p>{turning > 0 ? next.turning(sayFrequency(turning)) : next.notTurning}</p>
      <table aria-label={next.outcomes}>
        <thead>
          <tr>
            <td class="branch" />
            <th scope="col">{next.ifItShows}</th>
            <th scope="col" class="number">
              {next.chance}
            </th>
            <th scope="col">{next.follows}</th>
            <th scope="col">{next.pointsAt}</th>
          </tr>
        </thead>
        <tbody>
          {branches.shown.map((branch) => (
            <tr key={branch.outcome.label} data-turns={branch.turns}>
              <td class="branch" aria-hidden="true">
                <BranchDrawing branch={branch} />
              </td>
              <th scope="row">{capital(branch.outcome.label)}</th>
              <td class="number" data-label={next.chance}>
                {sayPercent(branch.outcome.chance)}
              </td>
              <td class="outcome-then">
                <StampOf verdict={branch.outcome.verdict} /> <span>{branch.outcome.option}</span>
                <small>{branch.turns ? next.turns : next.stays}</small>
              </td>
              <td data-label={next.pointsAt}>{faultName(branch.outcome.topFault)}</td>
            </tr>
          ))}
          {branches.rest !== null && (
            <tr class="outcome-rest">
              <td class="branch" aria-hidden="true">
                <BranchDrawing branch={branches.rest} />
              </td>
              <th scope="row">{next.rest}</th>
              <td class="number" data-label={next.chance}>
                {sayPercent(branches.rest.chance)}
              </td>
              <td class="outcome-then" colSpan={2}>
                <small>{next.restAbout}</small>
              </td>
            </tr>
          )}
        </tbody>
      </table>
    </div>
  );
}

const STEM = 40;
const WIDTH = 100;
const HEIGHT = 100;
/** the thickest branch where it leaves, so that it does not touch its neighbours */
const THICKEST = 62;
const LEAST_HALF = 1.5;

/** Part of the stem beside this row, and the branch that leaves it: stretched to the height of the row. */
function BranchDrawing({ branch: { above, below } }: { branch: Limb }) {
  const half = Math.max(LEAST_HALF, ((above - below) * THICKEST) / 2);
  const [upper, lower] = [HEIGHT / 2 - half, HEIGHT / 2 + half];
  const [inner, outer] = [STEM * below, STEM * above];
  return (
    <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} preserveAspectRatio="none" aria-hidden="true">
      {below > 0 && <path class="stem" d={`M0 0H${inner}V${HEIGHT}H0Z`} />}
      <path class="limb" d={`M${outer} 0Q${outer} ${upper} ${WIDTH} ${upper}V${lower}Q${inner} ${lower} ${inner} 0Z`} />
    </svg>
  );
}
