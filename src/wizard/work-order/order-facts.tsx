/** What the order says before anything is touched: with what, how dry, how hot, and what can hurt. */

import type { ComponentChildren } from 'preact';
import type { WorkOrder } from '../../work-order/schema.ts';
import { rulesLanguage } from '../language.ts';
import { sayMinutes } from '../words.ts';
import { FoldedCautions } from './folded-cautions.tsx';
import { HeatDrawing } from './heat-drawing.tsx';
import { workWords } from './words.ts';

export function OrderFacts({ order }: { readonly order: WorkOrder }) {
  const { order: words } = workWords.value;
  const { minutes, equipment, parts, notes, cautions } = order;
  return (
    <div class="order-facts">
      <div class="order-blocks">
        <Block name={words.needs}>
          <p class="about">{words.minutes(sayMinutes(minutes.low), sayMinutes(minutes.high))}</p>
          {equipment.length + parts.length === 0 && <p>{words.nothingNeeded}</p>}
          <ul class="order-needs">
            {equipment.map(({ id, name, here }) => (
              <li key={id} data-here={here}>
                <span lang={rulesLanguage.value}>{name}</span>
                {!here && <b> {words.missing}</b>}
              </li>
            ))}
            {parts.map(({ id, name }) => (
              <li key={id} data-here="true" lang={rulesLanguage.value}>
                {name}
              </li>
            ))}
          </ul>
        </Block>
        <Solder order={order} />
        <Bake order={order} />
        <Block name={words.heat}>
          {order.heat === null ? <p>{words.heatUntouched}</p> : <HeatDrawing heat={order.heat} />}
        </Block>
        <Targets order={order} />
        {notes.length > 0 && (
          <Block name={words.notes}>
            <ul lang={rulesLanguage.value}>
              {notes.map(({ text, from }) => (
                <li key={text}>
                  {text} <small>({from})</small>
                </li>
              ))}
            </ul>
          </Block>
        )}
      </div>
      <FoldedCautions name={words.cautions(cautions.length)} cautions={cautions} />
    </div>
  );
}

function Block({ name, children }: { readonly name: string; readonly children: ComponentChildren }) {
  return (
    <section class="order-block">
      <h3>{name}</h3>
      {children}
    </section>
  );
}

function Solder({ order: { solder } }: { readonly order: WorkOrder }) {
  const { order: words } = workWords.value;
  if (solder === null)
    return (
      <Block name={words.solder}>
        <p>{words.noSolder}</p>
      </Block>
    );
  const { solidusCelsius: solidus, liquidusCelsius: liquidus } = solder;
  return (
    <Block name={words.solder}>
      <p>
        <b>{solder.alloy}</b>, {solidus === liquidus ? words.melts(liquidus) : words.meltsFrom(solidus, liquidus)}
      </p>
      <p class="about" lang={rulesLanguage.value}>
        {solder.words.join(' ')}
      </p>
    </Block>
  );
}

function Bake({ order: { bake } }: { readonly order: WorkOrder }) {
  const { order: words } = workWords.value;
  const say = (choices: WorkOrder['bake']['choices']) =>
    choices.map(({ hours, celsius }) => words.bakeChoice(hours, celsius)).join(` ${words.or} `);
  const cited = bake.choices[0]?.cited;
  return (
    <Block name={words.bake}>
      <p lang={rulesLanguage.value}>{bake.words.join(' ')}</p>
      {bake.choices.length > 0 && (
        <p>
          <b>{say(bake.choices)}</b>
          {cited && (
            <small>
              {' '}
              ({words.table(cited.place.replace(/^table /, ''))}
              {cited.seen === 'memory' && `, ${words.memory}`})
            </small>
          )}
        </p>
      )}
      {bake.cautiousLevel !== null && bake.cautious.length > 0 && (
        <p class="about">
          {words.cautious(bake.cautiousLevel)}: {say(bake.cautious)}
        </p>
      )}
      {bake.assumed.length > 0 && (
        <details class="order-assumed">
          <summary>{words.assumed}</summary>
          <ul lang={rulesLanguage.value}>
            {bake.assumed.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </details>
      )}
    </Block>
  );
}

function Targets({ order: { targets } }: { readonly order: WorkOrder }) {
  const { order: words } = workWords.value;
  if (targets === null)
    return (
      <Block name={words.targets}>
        <p>{words.noTargets}</p>
      </Block>
    );
  return (
    <Block name={words.targets}>
      <p class="about" lang={rulesLanguage.value}>
        {targets.window}
      </p>
      <table class="order-targets" lang={rulesLanguage.value} aria-label={words.targets}>
        <thead class="visually-hidden">
          <tr>
            <th scope="col">{words.measure}</th>
            <th scope="col">{words.limit}</th>
          </tr>
        </thead>
        <tbody>
          {targets.rows.map(({ measure, name, limit }) => (
            <tr key={measure}>
              <th scope="row">{name}</th>
              <td class="number">{limit}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="about" lang={rulesLanguage.value}>
        {targets.words.join(' ')}
      </p>
    </Block>
  );
}
