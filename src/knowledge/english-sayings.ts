/**
 * Sentences that assessments make themselves, with slots in braces, so that they can be said in another language like the texts of
 * the rules. `{name:lower}` is the name as it stands inside an English sentence.
 */
import { WORK_SAYINGS } from './english-work-sayings.ts';

export const SAYINGS = {
  ...WORK_SAYINGS,

  under: 'under {percent}',
  over: 'over {percent}',
  'fewer-than-one': 'fewer than 1 of 100',
  'more-than-99': 'more than 99 of 100',
  'of-hundred': '{count} of 100',
  'one-year': 'a year',
  years: '{count} years',
  months: '{count} months',
  days: '{count} days',
  'if-that-fails': 'if that fails, {next:lower}',

  quoted: '"{text}"',
  'fits-nothing': '"{finding}" as recorded fits no set of faults at all: check the reading, or the knowledge is wrong.',
  'cannot-go-with':
    '"{finding}" as recorded cannot go with {others}: look at one of them again. The bench is right; a reading or the knowledge is wrong.',
  'excludes-itself': 'What was known up to here excludes itself: {findings}.',
  'life-worked': 'The record says the card worked after {remedy}, which nothing known of it allows.',
  'life-did-not-work': 'The record says the card did not work after {remedy}, which nothing known of it allows.',
  'life-found-after':
    'What was found after {remedy} cannot go with what went before: look at one of these findings again.',
  'life-still-working': 'The record says the card was still working, which nothing known of it allows.',
  'life-failed-within':
    'The record says the card failed within {days} days of leaving, which nothing known of it allows.',
  'life-found-back':
    'What was found when the card came back cannot go with what went before: look at one of these findings again.',

  'verdict-reflow': 'reflow',
  'verdict-reball': 'reball',
  'verdict-component-swap': 'component swap',
  'verdict-core-swap': 'core swap',
  'verdict-service': 'service',
  'verdict-return': 'return',
  'verdict-scrap': 'scrap',

  'is-sound': 'The card itself is sound with a chance of {chance}: it goes back as it is.',
  'host-likeliest': '{host} is the likeliest reason ({chance}).',
  'nothing-carries-yet': 'Nothing that has been looked at carries a repair yet.',
  'nothing-carries-but':
    'Nothing that has been looked at carries a repair yet: {repair:lower} would have to follow {checks}.',
  'no-repair-open': 'No repair is open for what this card most likely has.',
  'no-repair-pays':
    'No repair is worth its cost: the best of them, {repair:lower}, works in {works}, costs {cost} and comes to {surplus} over leaving the card, where {margin} is needed.',
  'works-and-holds': '{cause}; it works in {works} such cards and still after {days} in {holds}.',
  'no-cause-stands-out': 'No single cause stands out',
  'cause-likely': '{cause} is the likely cause ({chance})',
  'cause-leads': '{cause} leads, among several ({chance})',
  'found-by-owner': 'by the owner, {finding:lower} {state:lower}',
  'found-so': '{finding:lower} {state:lower}',
  'speaks-for': 'For {cause:lower}: {findings}.',
  'speaks-against': 'Against it: {findings}.',
  'expected-cost':
    'Expected cost {cost}: labour {labour}, parts {parts}, consumables {consumables}, comebacks {comebacks}.',
  'price-suits':
    'A price from {floor} (covers the shop) to {ceiling} (the owner is no worse off) suits both, paid only if the card works ({works}){otherwise}.',
  'no-fix-no-fee': ': no fix, no fee',
  'fee-if-not': '; {fee} if it does not',
  'next-best': 'Next best is {option:lower}: {less} less.',

  'if-worth-more': 'If the card were worth more than {money} working, {turns}.',
  'if-worth-less': 'If the card were worth less than {money} working, {turns}.',
  'if-chance-above': 'If the chance that it works ({option:lower}) were above {at} instead of {now}, {turns}.',
  'if-chance-below': 'If the chance that it works ({option:lower}) were below {at} instead of {now}, {turns}.',
  'price-above': 'Above a price of {money} the owner is better off leaving the card.',
  'price-to-cover': 'To cover the shop, {option:lower} would have to cost the owner {at}; it is worth {now} to them.',
  'if-parts-more': 'If the parts came to more than {at} instead of {now}, {turns}.',
  'if-parts-less': 'If the parts came to less than {at} instead of {now}, {turns}.',
  'if-work-more': 'If the work took more than {at} minutes instead of {now}, {turns}.',
  'if-work-less': 'If the work took less than {at} minutes instead of {now}, {turns}.',
  'verdict-becomes': 'the verdict becomes {verdict}',

  'waits-for-none': 'It waits for what no open check yields: {needs}.',
  'another-check-first': 'Another check comes first.',
  'opens-checks': 'It opens other checks ({checks}): worth {worth} with them.',
  'no-check-open': 'No further check is open.',
  'no-check-worth-it': 'No check is worth its minutes: none would change the decision by more than it costs.',
  'no-check-gains-enough':
    'No check gains enough to be begun: the best would leave the decision {gain} better, all its minutes paid.',
  'owed-first': '{option} would follow, but not before this has been looked at.',
  unproven:
    'It is not proven that nothing pays: what has not been looked at could be worth up to {open}, and no card is given up unmeasured.',
  'better-than-now': '{gain} better than deciding now',
  'worth-after': 'Worth {worth} after its {minutes} minutes.',
  'worth-after-with': 'Worth {worth} after its {minutes} minutes; with what follows it, {overall}.',
  'worth-with-others': 'Alone it would not pay; with what it opens, {overall}.',
  'several-abnormal': 'several of them abnormal',
  'rarer-result': 'another, rarer result',
  'all-normal': 'all normal',

  'nothing-to-look-at': 'By what is recorded of this card, there is nothing here to look at.',
  'not-on-this-bench': 'Not on this bench: {item}.',
  'no-price-known': 'No price is known for {parts}: put one in the shop profile.',
  'bench-has-no': 'This bench has no {items} (shop profile).',
  'bench-has-no-joint': ', no ',
  'no-power-no-rails': 'No power: nothing here says which rails must be measured to ground first.',
  'no-power-while-short': 'No power while a rail is short to ground: {rails}.',
  'no-power-while-missed':
    'No power on a reading that no such rail shows (probe beside the rail, or meter not on ohms). Take again: {rails}.',
  'no-power-before-known': 'No power before these are known not to be short: {rails}{hint}.',
  'unless-none': ' ({rails}: unless the card has none; say so)',
  'limited-first': 'First power only from a current-limited supply.',
  'limited-first-do': 'First power only from a current-limited supply: do {checks} first.',
  named: '"{name}"',
  or: ' or ',

  'input-share': 'share of cards: {fault}',
  'input-history': 'history ({rule}): {fault}',
  'input-leak': '{finding} on a sound card',
  'input-row': '{finding} with {fault}',
  'input-cures': '{remedy} cures {fault}',
  'input-masks': '{remedy} masks {fault}',
  'input-causes': '{remedy} causes {fault}',
  'input-risk': 'added risk ({rule})',
  'input-relapse': 'time to relapse: {fault}',
  'input-working': 'what the card is worth working',
  'input-as-is': 'what it is worth as it lies there',
  'input-left': 'what is left after work that failed',
  'input-hour': 'labour per hour',
  'input-heat': 'consumables per heat cycle',
  'input-comeback': 'cost of a comeback',
  'input-wrongly-sound': 'cost of calling a faulty card sound',
  'input-price': 'price: {part}',
  'input-minutes': 'minutes: {work}',
  'input-minutes-after': 'minutes to test after: {work}',
} as const;
