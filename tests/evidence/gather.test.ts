/** A whole record, folded. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { FindingEvidence, Gathered } from '../../src/evidence/evidence.ts';
import { answeredFacts } from '../../src/evidence/facts.ts';
import { gatherEvidence } from '../../src/evidence/gather.ts';
import { OWNER_RELIABILITY } from '../../src/evidence/observations.ts';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import type { Event } from '../../src/record/schema.ts';
import { arrived, measured, record, SHOP, seen, THREE_RAILS, treated } from './three-rails.ts';

async function gathered(timeline: readonly Event[], knowledge: Knowledge = THREE_RAILS): Promise<Gathered> {
  const result = await gatherEvidence(knowledge, SHOP, record(...timeline));
  if (result.kind !== 'gathered') throw new Error(JSON.stringify(result.issues));
  return result.gathered;
}
const about = ({ findings }: Gathered, id: string): FindingEvidence | undefined =>
  findings.find(({ finding }) => finding === id);
const LARGE = arrived({ 'die-size': 'large', 'second-core-rail': false });

describe('what the bench saw', () => {
  test('is certain of its state', async () => {
    expect(about(await gathered([seen('look-core', 'old-flux')]), 'look-core')).toEqual({
      finding: 'look-core',
      weights: [0, 1],
      origin: 'seen',
      state: 'old-flux',
      rules: [],
    });
  });

  test('can be spread over states, on any scale', async () => {
    const spread: Event = {
      type: 'seen',
      at: LARGE.at,
      finding: 'memory-test',
      state: null,
      by: 'bench',
      weights: { 'one-chip': 0.2, everywhere: 0.4 },
    };
    expect(about(await gathered([spread]), 'memory-test')).toMatchObject({ weights: [0, 0.5, 1], state: 'everywhere' });
  });

  test('replaces what it saw before, and names the contradiction', async () => {
    const evidence = about(await gathered([seen('look-core', 'clean'), seen('look-core', 'old-flux')]), 'look-core');
    expect(evidence).toMatchObject({ state: 'old-flux', contradicts: 'clean' });
    const repeated = about(await gathered([seen('look-core', 'clean'), seen('look-core', 'clean')]), 'look-core');
    expect(repeated).not.toHaveProperty('contradicts');
  });

  test('"can\'t tell" is no evidence, and takes an earlier answer back', async () => {
    expect(about(await gathered([seen('look-core', null)]), 'look-core')).toBeUndefined();
    expect(about(await gathered([seen('look-core', 'clean'), seen('look-core', null)]), 'look-core')).toBeUndefined();
  });

  test('a measured finding carries its reading', async () => {
    const evidence = about(await gathered([LARGE, measured('resistance-core', '310m')]), 'resistance-core');
    expect(evidence).toMatchObject({
      origin: 'measured',
      state: 'normal',
      reading: { typed: '310m', value: 0.31, window: 'core-large', unit: 'ohm' },
    });
  });

  test('the same reading is judged by the card it was taken on', async () => {
    const on = async (die: string) =>
      about(await gathered([arrived({ 'die-size': die }), measured('resistance-core', '0.31')]), 'resistance-core')
        ?.state;
    expect(await on('large')).toBe('normal');
    expect(await on('small')).toBe('low');
  });
});

describe('what the owner says', () => {
  test('is softer than the bench, by a stated amount', async () => {
    const rest = 1 - OWNER_RELIABILITY;
    const { weights, origin } = about(await gathered([seen('start-up', 'no-image', 'owner')]), 'start-up')!;
    expect(origin).toBe('owner');
    // eight in ten for what was said, the rest shared by the other two states; the largest scaled to 1
    weights.forEach((weight, i) => {
      expect(weight).toBeCloseTo([0.1 / 0.8, 1, 0.1 / 0.8][i]!, 12);
    });
    expect(weights).toEqual([rest / 2 / OWNER_RELIABILITY, 1, rest / 2 / OWNER_RELIABILITY]);
  });

  test('gives way to the bench, whichever came later', async () => {
    const [owner, bench] = [seen('start-up', 'no-image', 'owner'), seen('start-up', 'desktop')];
    for (const timeline of [
      [owner, bench],
      [bench, owner],
    ]) {
      const evidence = about(await gathered(timeline), 'start-up');
      expect(evidence).toMatchObject({ origin: 'seen', state: 'desktop', weights: [1, 0, 0] });
      expect(evidence).not.toHaveProperty('contradicts');
    }
  });

  test('stands while the bench cannot tell', async () => {
    const timeline = [seen('start-up', 'no-image', 'owner'), seen('start-up', null)];
    expect(about(await gathered(timeline), 'start-up')).toMatchObject({ origin: 'owner', state: 'no-image' });
  });

  test('words add up per finding and are scaled to the likeliest state', async () => {
    const words = about(await gathered([arrived({ 'owner-words': ['no-display', 'smell'] })]), 'start-up')!;
    // by hand: 0.1 x 0.2, 1 x 0.4, 0.5 x 1, over the largest
    for (const [i, weight] of [0.02 / 0.5, 0.4 / 0.5, 1].entries()) expect(words.weights[i]).toBeCloseTo(weight, 12);
    expect(words).toMatchObject({ origin: 'owner', state: 'rails-missing', rules: ['no-display', 'smell'] });
  });

  test('words are dropped once the bench has seen for itself, or the owner answered the question', async () => {
    const words = arrived({ 'owner-words': ['no-display'] });
    expect(about(await gathered([words, seen('start-up', 'desktop')]), 'start-up')).toMatchObject({
      origin: 'seen',
      rules: [],
    });
    expect(about(await gathered([words, seen('start-up', 'rails-missing', 'owner')]), 'start-up')).toMatchObject({
      state: 'rails-missing',
      rules: [],
    });
  });
});

describe('facts', () => {
  test('a later answer replaces an earlier one, and "can\'t tell" makes it unknown again', () => {
    const facts = answeredFacts([
      arrived({ mined: true, 'die-size': 'large' }),
      arrived({ mined: null, 'die-size': 'small' }),
    ]);
    expect([...facts]).toEqual([['die-size', 'small']]);
  });

  test('a decisive finding is a fact for the rules; a doubtful one and an owner word are not', async () => {
    const factor = async (...timeline: Event[]) => (await gathered(timeline)).history.map(({ rule }) => rule);
    expect(await factor()).toEqual(['no-flux-seen']);
    expect(await factor(seen('look-core', 'clean'))).toEqual(['no-flux-seen']);
    expect(await factor(seen('look-core', 'old-flux'))).toEqual([]);
    const doubtful: Event = {
      type: 'seen',
      at: LARGE.at,
      finding: 'look-core',
      state: null,
      by: 'bench',
      weights: { clean: 0.3, 'old-flux': 1 },
    };
    expect(await factor(doubtful)).toEqual(['no-flux-seen']);
    expect(await factor(seen('look-core', 'old-flux', 'owner'))).toEqual(['no-flux-seen']);
  });

  test('history comes out as one factor per rule and fault', async () => {
    const { history, fired } = await gathered([arrived({ mined: true }), seen('look-core', 'old-flux')]);
    expect(history).toEqual([
      { rule: 'mined', fault: 'fan-failed', factor: 2, spread: 0.3 },
      { rule: 'mined', fault: 'paste-degraded', factor: 3, spread: 0.3 },
    ]);
    expect(fired.map(({ id }) => id)).toContain('mined');
  });
});

describe('what is closed, and what is said besides', () => {
  const SOUND = [
    LARGE,
    seen('resistance-core', 'normal'),
    seen('resistance-memory', 'normal'),
    seen('idle-input-current', 'normal'),
  ];

  test('rules close checks and remedies, raise damage and caution', async () => {
    const { closedChecks, closedRemedies, damage, cautions } = await gathered([...SOUND, arrived({ liquid: true })]);
    expect(closedChecks.get('boot-test')).toEqual(['Clean and dry the board first.']);
    expect(closedRemedies.get('replace-fans')).toEqual(['Clean and dry the board first.']);
    expect(damage).toEqual([{ rule: 'liquid-damage', remedy: 'reflow-core', factor: 2, spread: 0.2 }]);
    expect(cautions).toEqual(['clean-before-power']);
  });

  test('reasons come safety first, then the bench, then what must be known, then the rules', async () => {
    const { closedChecks } = await gathered([arrived({ liquid: true })]);
    expect(closedChecks.get('boot-test')).toEqual([
      expect.stringContaining('No power before'),
      expect.stringContaining('First power only'),
      'Clean and dry the board first.',
    ]);
  });

  test('a check waits for what it requires, known and by the bench', async () => {
    const because = ['The card must be detected.'];
    expect((await gathered(SOUND)).closedChecks.get('memory-test')).toEqual(because);
    expect((await gathered([...SOUND, seen('start-up', 'no-image', 'owner')])).closedChecks.get('memory-test')).toEqual(
      because,
    );
    expect((await gathered([...SOUND, seen('start-up', 'rails-missing')])).closedChecks.get('memory-test')).toEqual(
      because,
    );
    expect((await gathered([...SOUND, seen('start-up', 'no-image')])).closedChecks.get('memory-test')).toBeUndefined();
  });

  test('an unpowered check may require a rail to be low', async () => {
    expect((await gathered(SOUND)).closedChecks.get('injection')).toEqual(['Only a low rail warms under injection.']);
    expect(
      (await gathered([LARGE, measured('resistance-core', '0.06')])).closedChecks.get('injection'),
    ).toBeUndefined();
  });

  test('equipment the bench lacks closes checks and remedies by name', async () => {
    const result = await gatherEvidence(THREE_RAILS, { ...SHOP, equipment: ['limited-supply'] }, record(LARGE));
    if (result.kind !== 'gathered') throw new Error();
    expect(result.gathered.closedRemedies.get('reflow-core')).toEqual(['Not on this bench: Hot-air station.']);
    expect(result.gathered.closedChecks.get('injection')).toContain('Not on this bench: injection supply.');
  });
});

describe('findings that do not concern the card', () => {
  test('are set aside, not lost and not counted, once the card is known to have none', async () => {
    const timeline = [seen('resistance-core-second', 'short')];
    const maybe = await gathered(timeline);
    expect(maybe.applicable.has('resistance-core-second')).toBe(true);
    expect(about(maybe, 'resistance-core-second')).toMatchObject({ state: 'short' });
    const none = await gathered([...timeline, arrived({ 'second-core-rail': false })]);
    expect(none.applicable.has('resistance-core-second')).toBe(false);
    expect(about(none, 'resistance-core-second')).toBeUndefined();
    expect(none.setAside).toEqual([
      {
        finding: 'resistance-core-second',
        path: 'timeline.0',
        because: 'By what is recorded of this card, it has none.',
      },
    ]);
  });

  test('two windows claimed for one reading: neither is trusted', async () => {
    const [large] = THREE_RAILS.rules.windowChoice;
    const knowledge: Knowledge = {
      ...THREE_RAILS,
      rules: {
        ...THREE_RAILS.rules,
        windowChoice: [
          ...THREE_RAILS.rules.windowChoice,
          {
            ...large!,
            id: 'also',
            event: { type: 'window', params: { finding: 'resistance-core', window: 'core-small' } },
          },
        ],
      },
    };
    const result = await gathered([LARGE, measured('resistance-core', '0.31')], knowledge);
    expect(about(result, 'resistance-core')).toBeUndefined();
    expect(result.setAside[0]?.because).toBe('Two windows are claimed for this reading: core-large, core-small.');
  });
});

describe('treatments', () => {
  test('split the timeline: what came before is kept apart from what came after', async () => {
    const { findings, segments } = await gathered([
      LARGE,
      seen('start-up', 'no-image'),
      treated('reflow-core'),
      seen('start-up', 'desktop'),
      treated('replace-fans'),
    ]);
    expect(findings).toMatchObject([{ finding: 'start-up', state: 'no-image' }]);
    expect(
      segments.map(({ findings, endedBy }) => [
        findings.map(({ state }) => state),
        endedBy?.type === 'treated' ? endedBy.remedy : undefined,
      ]),
    ).toEqual([
      [['no-image'], 'reflow-core'],
      [['desktop'], 'replace-fans'],
      [[], undefined],
    ]);
  });

  test('a finding that changed across a treatment contradicts nothing', async () => {
    const { segments } = await gathered([
      seen('start-up', 'no-image'),
      treated('reflow-core'),
      seen('start-up', 'desktop'),
    ]);
    expect(segments[1]?.findings[0]).not.toHaveProperty('contradicts');
  });
});

describe('a record that cannot be read', () => {
  test('comes back with all its issues at once, each with what was typed', async () => {
    const result = await gatherEvidence(
      THREE_RAILS,
      SHOP,
      record(
        arrived({ 'die-size': 'huge', mind: true }),
        seen('start-up', 'fine'),
        measured('resistance-memory', 'abc'),
        measured('resistance-core', '-3'),
        measured('start-up', '12'),
        treated('hope'),
      ),
    );
    if (result.kind !== 'bad-record') throw new Error('it was gathered');
    expect(result.issues.map(({ path, typed }) => [path, typed])).toEqual([
      ['timeline.0.facts.die-size', 'huge'],
      ['timeline.0.facts.mind', 'mind'],
      ['timeline.1.state', 'fine'],
      ['timeline.5.remedy', 'hope'],
      ['timeline.4.finding', '12'],
      ['timeline.3.typed', '-3'],
      ['timeline.2.typed', 'abc'],
    ]);
  });

  test('a reading no window can judge yet must still be a number', async () => {
    const result = await gatherEvidence(THREE_RAILS, SHOP, record(measured('resistance-core', 'low-ish')));
    expect(result).toMatchObject({ kind: 'bad-record', issues: [{ path: 'timeline.0.typed', typed: 'low-ish' }] });
  });
});

describe('laws', () => {
  const observations: readonly (readonly Event[])[] = [
    [seen('start-up', 'no-image', 'owner'), seen('start-up', 'desktop')],
    [measured('resistance-core', '0.08'), measured('resistance-core', '0.31')],
    [seen('resistance-memory', 'short'), measured('resistance-memory', '40')],
    [seen('look-core', 'old-flux')],
    [seen('memory-test', 'one-chip', 'owner')],
    [arrived({ mined: true, 'die-size': 'large', 'second-core-rail': false, 'owner-words': ['smell'] })],
  ];

  test('the order in which different findings were observed does not matter', async () => {
    const straight = await gathered(observations.flat());
    const { setAside: _, ...expected } = straight;
    await fc.assert(
      fc.asyncProperty(fc.array(fc.nat(), { minLength: 9, maxLength: 9 }), async (picks) => {
        const queues = observations.map((queue) => [...queue]);
        const mixed: Event[] = [];
        for (let turn = 0; queues.some((queue) => queue.length > 0); turn += 1) {
          const full = queues.filter((queue) => queue.length > 0);
          mixed.push(full[picks[turn % picks.length]! % full.length]!.shift()!);
        }
        const { setAside: __, ...result } = await gathered(mixed);
        expect(result).toEqual(expected);
      }),
      { seed: 21, numRuns: 100 },
    );
  });

  test('gathering twice gives the same, and many cards at once are not mixed up', async () => {
    const cards = ['large', 'small'].flatMap((die) =>
      ['0.08', '0.31', '2'].map((typed) => [arrived({ 'die-size': die }), measured('resistance-core', typed)]),
    );
    const alone: Gathered[] = [];
    for (const card of cards) alone.push(await gathered(card));
    expect(await Promise.all(cards.map((card) => gathered(card)))).toEqual(alone);
  });
});
