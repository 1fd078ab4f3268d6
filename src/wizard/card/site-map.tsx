/** The card as a drawing: parts shaded by how likely the fault is there, picked by pointer, touch or arrow keys. */
import { useLayoutEffect, useMemo, useRef } from 'preact/hooks';
import type { Assessed } from '../../assessment.ts';
import type { Site } from '../../knowledge/schema.ts';
import { drawCard } from '../../letter/card-drawing.ts';
import { InFigures } from '../charts/in-figures.tsx';
import { messages } from '../language.ts';
import { sayPercent } from '../words.ts';

interface Props {
  /** tells two maps on one page apart */
  readonly at: string;
  readonly sites: Assessed['sites'];
  readonly picked: Site | null;
  readonly onPick: (site: Site | null) => void;
}

/** Figures are written on parts at least this likely. */
const LEAST_CHANCE_MARKED = 0.05;

export function SiteMap({ at, sites, picked, onPick }: Props) {
  const words = messages.value.sites;
  const ordered = sites.toSorted((a, b) => b.chance - a.chance);
  const drawing = useMemo(
    () =>
      drawCard({
        title: words.drawing,
        prefix: at,
        sites: sites.map(({ site, chance }) => ({
          site,
          chance,
          title: words.chanceAt(words.names[site], sayPercent(chance)),
          mark: chance >= LEAST_CHANCE_MARKED ? String(Math.round(100 * chance)) : undefined,
        })),
      }),
    [at, sites, words],
  );
  const drawn = useRef<HTMLDivElement>(null);
  // the page forbids styles written into markup, so what the style sheet shades by is set here
  useLayoutEffect(() => {
    for (const { site, chance } of sites)
      drawn.current?.querySelector<SVGElement>(`[data-site="${site}"]`)?.style.setProperty('--chance', String(chance));
  }, [sites, drawing]);
  const pickUnder = ({ target }: { readonly target: EventTarget | null }) => {
    const site = target instanceof Element ? target.closest<SVGElement>('[data-site]')?.dataset.site : undefined;
    const known = sites.find((one) => one.site === site);
    onPick(known === undefined || known.site === picked ? null : known.site);
  };
  return (
    <fieldset class="site-map" data-picked={picked ?? 'whole'}>
      <legend class="visually-hidden">{words.legend}</legend>
      {/* the choices follow as radio buttons, which is what keyboards and screen readers use */}
      <div class="site-drawing" aria-hidden="true" onClick={pickUnder}>
        <div ref={drawn} dangerouslySetInnerHTML={{ __html: drawing }} />
      </div>
      <div class="site-choices">
        {[null, ...ordered.map(({ site }) => site)].map((site) => (
          <label class="site-choice" key={site}>
            <input
              type="radio"
              class="visually-hidden"
              name={`${at}-site`}
              value={site ?? 'whole'}
              checked={picked === site}
              onChange={() => onPick(site)}
            />
            <span class="visually-hidden">
              {site === null
                ? words.whole
                : words.chanceAt(words.names[site], sayPercent(sites.find((one) => one.site === site)!.chance))}
            </span>
          </label>
        ))}
      </div>
      <InFigures
        title={words.inFigures}
        columns={[{ name: words.site }, { name: words.chance, number: true }]}
        rows={ordered.map(({ site, chance }) => [
          <button type="button" class="quiet" onClick={() => onPick(site)} key={site}>
            {words.names[site]}
          </button>,
          sayPercent(chance),
        ])}
      />
    </fieldset>
  );
}
