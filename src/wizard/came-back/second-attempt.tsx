import type { ComponentChildren } from 'preact';
import type { Assessed, SecondAttempt as Second } from '../../assessment.ts';
import type { Catalogue } from '../catalogue.ts';
import { jumpTo } from '../frame/jump.ts';
import { ArrowMark, CautionMark } from '../frame/marks.tsx';
import { formatTag, rulesLanguage } from '../language.ts';
import { useSession } from '../session.ts';
import { isFirm, Stamp } from '../verdict/stamp.tsx';
import { type Manner, sayDays, sayFrequency, sayMoney, unbroken } from '../words.ts';
import { cameBackWords } from './words.ts';

interface Props {
  readonly assessed: Assessed;
  readonly catalogue: Catalogue;
}

/** Whether to try again, with everything a second attempt starts from. */
export function SecondAttempt({ assessed, catalogue }: Props) {
  const session = useSession();
  const { second: words } = cameBackWords.value;
  const { comeback, verdict } = assessed;
  if (comeback === undefined) return null;
  const { second, lastRemedyName } = comeback;
  const manner: Manner = { locale: catalogue.shop.locale, currency: assessed.currency };
  const { heatCycles, damage, again, againClosed, paid } = second;
  return (
    <section class="second-attempt">
      <h2>{words.heading}</h2>
      <div class="verdict">
        <p class="verdict-head">
          <Stamp assessed={assessed} />
          <span class="verdict-name" lang={rulesLanguage.value}>
            {verdict.name}
          </span>
        </p>
        {!isFirm(assessed) && <p class="about">{words.soFar}</p>}
        <p class="lead" lang={rulesLanguage.value}>
          {unbroken(verdict.because)}
        </p>
        <Settlement second={second} manner={manner} />
      </div>
      <dl class="second-facts">
        {again !== null && (
          <Fact name={words.again(lastRemedyName)} ofRules>
            {words.chances(
              sayFrequency(again.option.works),
              sayFrequency(again.option.holds),
              sayDays(assessed.horizonDays),
            )}
            <small>{again.option.justified ? words.pays : words.paysNot}</small>
          </Fact>
        )}
        {againClosed.map((reason) => (
          <Fact name={words.again(lastRemedyName)} ofRules key={reason}>
            <span lang={rulesLanguage.value}>{words.closed(reason)}</span>
          </Fact>
        ))}
        {damage.onceMore > 0 && (
          <Fact name={words.damage}>
            {words.damageRose(sayFrequency(damage.onceMore), sayFrequency(damage.lastTime))}
            {damage.because.length > 0 && (
              <small lang={rulesLanguage.value}>{damage.because.map(({ about }) => about).join(' ')}</small>
            )}
          </Fact>
        )}
        {heatCycles.here + (heatCycles.before ?? 0) > 0 && (
          <Fact name={words.heat}>
            {heatCycles.before === null
              ? words.heatHere(heatCycles.here)
              : words.heatBoth(heatCycles.before, heatCycles.here)}
          </Fact>
        )}
        {!assessed.ownStock && <Fact name={words.warranty}>{sayWarranty(second, catalogue)}</Fact>}
        {!assessed.ownStock && (
          <Fact name={words.paid}>
            {paid.inAll === null ? words.paidNotKnown : sayMoney(paid.inAll, manner)}
            {paid.inAll !== null && <small>{words.sunk}</small>}
          </Fact>
        )}
        <Fact name={words.comeback}>
          {sayMoney(second.comebackCost, manner)}
          <small>{words.comebackAbout}</small>
        </Fact>
      </dl>
      <p class="buttons">
        <button type="button" onClick={() => jumpTo(session, 'verdict')}>
          {words.toVerdict} <ArrowMark />
        </button>
        <button type="button" onClick={() => jumpTo(session, 'owner')}>
          {words.toOwner} <ArrowMark />
        </button>
      </p>
    </section>
  );
}

function Fact({
  name,
  ofRules,
  children,
}: {
  readonly name: string;
  readonly ofRules?: boolean;
  readonly children: ComponentChildren;
}) {
  return (
    <div>
      <dt lang={ofRules ? rulesLanguage.value : undefined}>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

/** What becomes of the money that was paid, where a warranty runs. */
function Settlement({ second, manner }: { readonly second: Second; readonly manner: Manner }) {
  const { second: words } = cameBackWords.value;
  const { warranty, settlement, advised } = second;
  if (warranty?.running !== true) return null;
  const band =
    advised !== null && advised.least !== null && advised.most !== null && advised.least <= advised.most
      ? words.band(sayMoney(Math.max(0, advised.least), manner), sayMoney(advised.most, manner))
      : null;
  return (
    <>
      <p class="settlement">
        {settlement === null && <CautionMark />} <b>{words.settle[settlement ?? 'unknown']}</b>
      </p>
      {band !== null && settlement !== 'not-the-card' && <p class="about">{band}</p>}
    </>
  );
}

function sayWarranty({ warranty }: Second, { shop }: Catalogue): string {
  const { second: words } = cameBackWords.value;
  if (warranty === null) return words.noWarranty;
  const day = Math.floor(warranty.failedAfter);
  const until = new Intl.DateTimeFormat(formatTag(shop.locale), { dateStyle: 'medium' }).format(
    new Date(warranty.until),
  );
  return warranty.running ? words.running(day, warranty.days, until) : words.over(day, warranty.days);
}
