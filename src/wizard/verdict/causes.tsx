import { useState } from 'preact/hooks';
import { saysLittle } from '../../assess/says-little.ts';
import type { Assessed, RankedFault } from '../../assessment.ts';
import type { Site } from '../../knowledge/schema.ts';
import { ChanceBar } from '../card/chance-bar.tsx';
import { Evidence } from '../card/evidence.tsx';
import { SiteMap } from '../card/site-map.tsx';
import type { Catalogue } from '../catalogue.ts';
import { messages } from '../language.ts';
import { capital, sayPercent } from '../words.ts';

interface Props {
  readonly assessed: Assessed;
  readonly catalogue: Catalogue;
}

const SHOWN = 8;
/** of one part of the card, causes rarer than this are not worth a line */
const LEAST_CHANCE_SHOWN = 0.001;

/** Ranked causes, each with what speaks for and against it: the likeliest, or those of the part picked on the drawing. */
export function Causes({ assessed, catalogue }: Props) {
  const [picked, setPicked] = useState<Site | null>(null);
  const { evidence, sites } = messages.value;
  const shown =
    picked === null
      ? assessed.ranking.slice(0, SHOWN)
      : assessed.ranking.filter(({ site, chance }) => site === picked && chance >= LEAST_CHANCE_SHOWN);
  return (
    <>
      <div class="causes-map">
        <SiteMap at="map-of-causes" sites={assessed.sites} picked={picked} onPick={setPicked} />
      </div>
      {picked === null ? (
        <p class="about">{evidence.decibels}</p>
      ) : (
        <p class="picked">
          <b>{sites.causesAt(sites.names[picked])}</b>{' '}
          <button type="button" class="quiet" onClick={() => setPicked(null)}>
            {sites.showAll}
          </button>
        </p>
      )}
      <ol class="causes">
        {shown.map((cause, index) => (
          <li key={cause.fault}>
            <Cause
              cause={cause}
              about={catalogue.faults.find(({ id }) => id === cause.fault)?.about}
              open={index === 0}
            />
          </li>
        ))}
      </ol>
      {shown.length === 0 && <p>{sites.noneHere}</p>}
    </>
  );
}

function Cause({ cause, about, open }: { cause: RankedFault; about: string | undefined; open: boolean }) {
  const { evidence } = messages.value;
  return (
    <details open={open}>
      <summary>
        <span class="cause-name">{cause.name}</span>
        <span class="cause-chance">
          {sayPercent(cause.chance)}
          {cause.interval && (
            <small>
              {' '}
              {evidence.range(sayPercent(cause.interval.low), sayPercent(cause.interval.high))}
              {saysLittle(cause.interval) && `: ${evidence.littleKnown}`}
            </small>
          )}
        </span>
        <ChanceBar chance={cause.chance} before={cause.before} />
      </summary>
      {about && <p class="about">{about}</p>}
      <p class="from-history">{evidence.history(sayPercent(cause.before))}</p>
      <Evidence cause={cause} />
    </details>
  );
}

/** Pairs of likely causes that nothing found so far parts. */
export function Inseparable({ assessed, catalogue }: Props) {
  const { apart } = messages.value;
  if (assessed.inseparable.length === 0) return null;
  const fault = (id: string) => catalogue.faults.find((one) => one.id === id)?.name ?? id;
  const check = (id: string) => catalogue.checks.find((one) => one.id === id)?.name ?? id;
  return (
    <div class="inseparable">
      <h3>{apart.heading}</h3>
      <ul>
        {assessed.inseparable.slice(0, 5).map(({ faults: [one, other], check: parting }) => (
          <li key={`${one} ${other}`}>
            {capital(apart.pair(fault(one), fault(other)))}:{' '}
            {parting === null ? apart.byNone : <b>{apart.by(check(parting))}</b>}
          </li>
        ))}
      </ul>
    </div>
  );
}
