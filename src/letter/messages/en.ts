/** Every fixed sentence of the owner's page, in English. Short words, short sentences: the reading level is tested. */
import type { VerdictKind } from '../../assessment.ts';
import type { Site } from '../../knowledge/schema.ts';
import type { Outcome } from '../schema.ts';

export const en = {
  count: {
    ofHundred: (count: string) => `${count} of 100`,
    fewerThanOne: 'fewer than 1 of 100',
    moreThan99: 'more than 99 of 100',
  },

  days: (days: number): string =>
    days % 365 === 0
      ? days === 365
        ? 'a year'
        : `${days / 365} years`
      : days % 30 === 0 && days > 90
        ? `${days / 30} months`
        : `${days} days`,

  page: {
    kind: 'Report and offer for your graphics card',
    kindOwnStock: 'Report on a card of our own',
    kindAgain: 'Why your card failed again, and what we advise',
    kindFailed: 'Why the repair failed, and what we advise',
    card: 'Card',
    number: 'Job',
    date: 'Date',
    validUntil: 'Valid until',
    invented: 'Invented example: no real card, owner or price.',
    inventedMark: 'Invented example',
    basis: (knowledge: string) => `So that this page can be checked later: worked out by rule book ${knowledge}.`,
    languageNote: (language: string) =>
      `Findings, causes, work and advice are worded here as the rules of the workshop say them${language === 'de' ? ', in German' : ''}.`,
  },

  headings: {
    advice: 'Our advice',
    cameIn: 'What came in',
    afterWork: 'What was done before',
    whyAgain: 'Why it failed again',
    whyFailed: 'Why the repair failed',
    found: 'What we found',
    likely: 'What is likely wrong',
    likelyElsewhere: 'Where to look next',
    picture: 'Where on the card',
    next: 'The next step',
    choices: 'Your choices',
    choicesOwnStock: 'The choices',
    choicesNow: 'Your choices, as it looks today',
    why: 'Why we advise this',
    changes: 'What would change our advice',
    ruledOut: 'What we do not offer, and why',
    rests: 'What this rests on',
    cautions: 'Please note',
    consent: 'Your decision',
    consentOwnStock: 'For our files',
  },

  columns: {
    choice: 'Choice',
    price: 'Price',
    works: 'Works again',
    holds: (after: string) => `Still works after ${after}`,
    ifItFails: 'If it fails',
    advised: 'We advise this',
    bestToday: 'Best as it looks today',
    notWorthIt: 'Not worth its price',
  },

  titles: {
    repair: 'The repair is worth it',
    leave: 'A repair is not worth it',
    return: 'We found nothing wrong with the card',
    'check-first': 'We want to look further first',
    contradiction: 'We need to look again',
  } satisfies Record<Outcome, string>,
  titleReturnUnsure: 'Most likely nothing is wrong with the card',
  titlesAgain: { repair: 'Another repair is worth it', leave: 'Another repair is not worth it' },
  titleWorks: 'The card works: there is nothing to do',
  titleClose: 'The repair is only just worth it',

  lead: {
    repair: (works: string, holds: string, after: string) =>
      `Of 100 cards like this one, the repair gets ${works} to work again. ${holds} still work after ${after}.`,
    price: (price: string) => `Your price is ${price}. You pay it only if the card works when we hand it back.`,
    close: 'It is a close call: see below how sure we are.',
    leave: 'We looked for a repair that would be worth your money. There is none for this card.',
    leaveOwnStock: 'We looked for a repair that would be worth its cost. There is none for this card.',
    bestRepair: (works: string) => `The best repair we know would work for ${works} cards like this one.`,
    noRepair: 'We know no repair for what this card most likely has.',
    repairWaits:
      'The repair that might help needs more tests first. For this card, those tests would cost more than they bring.',
    return: (works: string) =>
      `Of 100 cards with these signs, ${works} are sound. The cause is then in the computer around the card.`,
    works: 'As far as we know, the card has worked since the repair. There is nothing to do and nothing to pay.',
    checkFirst: 'We do not know enough yet to give you good advice. One more step can change that.',
    contradiction: 'Two things we noted about this card cannot both be true. One of them must be wrong.',
    contradictionThen:
      'We measure again before we advise anything. It costs you nothing, and there is nothing to decide yet.',
    stands: (what: string) => `If we had to decide today, we would advise ${what}.`,
  },

  cameIn: {
    nothing: 'You told us nothing yet about how it came about.',
    told: (words: string) => `You told us: ${words}.`,
    tests: (words: string) => `What you saw: ${words}.`,
    age: (years: string) => `The card is about ${years} old.`,
    years: (count: number, text: string) => (count === 1 ? 'one year' : `${text} years`),
    known: (words: string) => `We also know: ${words}.`,
    arrived: (date: string) => `It came in on ${date}.`,
    cameBack: (date: string) => `It came back on ${date}.`,
  },

  /** what owners tell; ids of facts and of their values */
  facts: {
    'owner-words': {
      'no-display': 'no picture',
      artifacts: 'wrong colours, blocks or lines',
      'driver-crash': 'the driver crashes',
      'heat-dropout': 'it drops out when warm',
      'shuts-pc-down': 'it shuts the computer down',
      'smell-or-smoke': 'smell or smoke',
      'not-detected': 'the computer does not see it',
      'fans-full-speed': 'the fans run at full speed',
      'noise-from-fans': 'noise from the fans',
      'black-screen-under-load': 'the screen goes black when it works hard',
    },
    'onset-manner': {
      sudden: 'it began all at once',
      gradual: 'it began little by little',
      'after-transport': 'it began after a move or the post',
      'after-power-event': 'it began after a surge or a power cut',
      'after-update': 'it began after an update',
    },
    'earlier-heat-work': {
      none: null,
      reflow: 'the main chip was heated before',
      reball: 'the main chip was soldered anew before',
      'oven-or-heat-gun': 'it was in an oven or under a heat gun',
      'kind-unknown': 'it was heated before',
    },
    mined: { true: 'it ran hard for months on end', false: null },
    overclocked: { true: 'it ran above its limits', false: null },
    dusty: { true: 'it was thick with dust', false: null },
    knocked: { true: 'it was knocked or dropped', false: null },
    sagged: { true: 'it hung in its slot without support', false: null },
    liquid: { true: 'liquid reached it', false: null },
    'stored-damp': { true: 'it was kept in a damp place', false: null },
    'other-repair': { true: 'other parts were repaired before', false: null },
    'cooler-opened': { true: 'the cooler was off before', false: null },
    'new-host-part': { true: 'the computer got a new part just before', false: null },
    'firmware-changed': { true: 'its built-in software was changed', false: null },
    'works-elsewhere': { true: 'it worked in another computer', false: 'it failed in another computer, too' },
  },

  afterWork: {
    done: 'We did this last',
    doneOn: (date: string) => `We did this last, on ${date}`,
    cameBackOften: (times: number, text: string, days: string | null) =>
      `It has come back ${times === 2 ? 'twice' : `${text} times`}${days === null ? '' : `: on ${days}`}.`,
    asItWas: 'In between it went out as it was. So we take it for the same fault.',
    failedAgain: (days: number, text: string) =>
      days < 1
        ? 'The card failed again on the same day.'
        : days === 1
          ? 'The card worked for one day and failed again.'
          : `The card worked for ${text} days and failed again.`,
    failedAgainUnknown: 'The card failed again. We do not know after how long.',
    neverWorked: 'The card did not work after that.',
    works: 'As far as we know, the card has worked since then.',
    warranty: (days: string) => `That is within the ${days} of warranty: you get your money back for that repair.`,
    afterWarranty: (days: string) => `That is after the ${days} of warranty.`,
    warrantyAgain: (days: string) =>
      `That is within the ${days} of warranty: you can have your money back. We advise you to let us try again at no new price.`,
    paid: (price: string) => `You paid ${price} for it.`,
    paidPast: (price: string) => `You paid ${price} for it. That is past, so our advice looks at what comes next.`,
    nothingPaid: 'You pay nothing for that repair.',
    plainly: {
      'wrong-thing': 'Most likely we treated the wrong fault. That was our mistake, and we are sorry.',
      'did-not-take': 'Most likely our repair did not take. We are sorry.',
      relapsed:
        'Heat can wake a broken part for a while. So it was no proof that the card worked after our repair. The old fault was most likely still there.',
      damaged: 'Most likely our own repair did this harm. It is our fault, and we are sorry.',
      'new-fault': 'Most likely our repair held, and another part has failed since.',
    },
    mayBeOurs: 'We cannot rule out that our own repair did harm.',
    again: (works: string, holds: string, after: string) =>
      `The same repair once more would work for ${works} such cards, and ${holds} would still work after ${after}.`,
    againNot: 'We advise against it.',
    againHarm: (count: string) => `In ${count} such cases, the new heat itself would do harm.`,
    againClosed: 'We would not do the same repair once more.',
    reasons: {
      'wrong-thing': (count: string) => `In ${count} such cases, the true fault was another one than we treated.`,
      'did-not-take': (count: string) => `In ${count} such cases, the repair did not take.`,
      relapsed: (count: string) => `In ${count} such cases, the old fault was gone for a while and is back.`,
      damaged: (count: string) => `In ${count} such cases, the repair itself did harm.`,
      'new-fault': (count: string) => `In ${count} such cases, something new has failed.`,
    },
  },

  found: {
    nothingSince: 'We have not tested it again yet.',
    nothing: 'We have not tested anything yet.',
    others: (count: number) =>
      count === 1 ? 'One more test showed nothing unusual.' : `${count} more tests showed nothing unusual.`,
    allNormal: (count: number) =>
      count === 1 ? 'One test: it showed nothing unusual.' : `${count} tests: none showed anything unusual.`,
    unusual: 'unusual',
  },

  sure: {
    certain: 'Almost certain',
    very: 'Very likely',
    likely: 'Likely',
    possible: 'Possible',
    slight: 'Less likely',
  },
  cause: {
    range: (low: string, high: string) => `${low} to ${high}`,
    sound: (count: string) => `Nothing wrong with the card: ${count}.`,
    several: 'A card can have more than one fault, so these can add up to more than 100.',
    noneStandsOut: 'No cause stands out: many are possible.',
    about: (count: string) => `about ${count}`,
    littleKnown: 'little is known about this figure',
    littleKnownWhy:
      'Where little is known about a figure, it rests on things that few have counted. The truth may be far off.',
  },

  price: {
    nothing: 'nothing',
    nothingNew: 'nothing new',
    ownStock: 'no price: our own card',
    noneFits: (needed: string, worth: string) => `would have to be ${needed}, worth ${worth} to you`,
    noneFitsAtAll: (needed: string) => `would have to be ${needed}, worth nothing to you`,
  },
  ifItFails: {
    noFee: 'You pay nothing.',
    fee: (fee: string) => `You pay ${fee} for our work.`,
    return: 'Bring it back: we look again.',
    leave: 'It stays broken.',
    ownStock: 'The work is lost.',
  },
  fails: {
    noFee: 'If the card does not work when you get it back, you pay nothing.',
    fee: (fee: string) => `If the card does not work when you get it back, you pay only ${fee} for our work.`,
    warranty: (days: string) => `If it fails again within ${days}, you get your money back.`,
    noWarranty: 'If it fails again later, you do not get your money back.',
    later: 'After that, you do not.',
  },
  note: { waits: 'Other tests come first.', heldOffer: 'if it stays that way' },

  kinds: {
    reflow: 'heating the main chip in place',
    reball: 'new solder under the main chip',
    'component-swap': 'replacing the bad part',
    'core-swap': 'replacing the main chip',
    service: 'a service of the card',
    return: 'handing it back as sound',
    scrap: 'no repair',
  } satisfies Record<VerdictKind, string>,

  outOf100: {
    titleAdvised: 'What the repair does for 100 cards like this one',
    titleBest: 'What the best repair would do for 100 such cards',
    titleReturn: '100 cards with these signs',
    holds: (count: number, after: string) => `${count} work, and still after ${after}`,
    failsAgain: (count: number, after: string) => `${count} work, but fail again within ${after}`,
    fails: (count: number) => `${count} do not work`,
    sentence: (holds: number, failsAgain: number, fails: number, after: string) =>
      `Of 100 cards like this one, ${holds} work and still work after ${after}, ${failsAgain} work and then fail again, and ${fails} do not work.`,
  },

  why: {
    gain: (gain: string) => `On average, at this price the repair leaves you ${gain} better off than leaving the card.`,
    even: 'At this price the repair leaves you no better off than leaving the card.',
    worse: (loss: string) => `On average, at this price the repair leaves you ${loss} worse off than leaving the card.`,
    only: 'No other repair we could do is worth its price.',
    best: 'Other repairs would be worth it, too. This one leaves the most for both of us.',
    bestOwnStock: 'Other repairs would be worth it, too. This one leaves the most.',
    leaving: 'Leaving it costs nothing, but the card stays broken.',
    gap: (needed: string, worth: string) =>
      `To cover our cost, that repair would have to cost you ${needed}. It is worth at most ${worth} to you.`,
    gapAtAll: (needed: string) =>
      `To cover our cost, that repair would have to cost you ${needed}. It is worth nothing to you, as it fails too often.`,
    noRepair: 'No repair we can do works often enough on what is likely wrong.',
    honest: 'We would rather tell you so than sell you a repair that is likely to cost you more than it brings.',
    returnHarm: 'Work on a sound card costs money and can do harm.',
    returnLook: (causes: string) => `Please look at these first: ${causes}.`,
    ownStock: (cost: string, gain: string) =>
      `On average the work costs us ${cost} and leaves us ${gain} better off than leaving the card.`,
    ownStockGap: (cost: string) => `That repair would cost us ${cost} on average. It does not bring that back.`,
    contradiction: (finding: string, others: string) => `This does not fit: ${finding}. It cannot go with: ${others}.`,
    contradictionOfWork: 'What was seen on the card cannot go with what was written down about the work on it.',
    contradictionAlone: (finding: string) => `This fits no fault we know: ${finding}.`,
    checkWorth: (worth: string) => `On average, this step is worth ${worth} more than it costs.`,
    checkEven: 'On average, this step brings a little more than it costs.',
    checkOpens: 'By itself this step seldom decides. It makes further tests safe.',
    checkOpensWorth: (worth: string) => `With them, it is worth ${worth} more than it costs.`,
    firm: (stands: string) => `We tried this with many other estimates. The advice stayed the same in ${stands} tries.`,
    firmToday: (stands: string) =>
      `We tried this with many other estimates. What we would advise today stayed the same in ${stands} tries.`,
  },

  changes: {
    value: (side: 'more' | 'less', at: string, now: string, becomes: string) =>
      `If a working card were worth ${side} than ${at}, we would advise ${becomes}. We took ${now}.`,
    chance: (side: 'more' | 'less', at: string, now: string, becomes: string) =>
      `If it worked for ${side === 'more' ? 'more' : 'fewer'} than ${at} cards, we would advise ${becomes}. We expect ${now}.`,
    sound: (side: 'more' | 'less', at: string, now: string, becomes: string) =>
      `If ${side === 'more' ? 'more' : 'fewer'} than ${at} such cards were sound, we would advise ${becomes}. We expect ${now}.`,
    ceiling: (at: string) => `Above a price of ${at}, you would be better off leaving the card.`,
    gap: (needed: string, worth: string) => `If you could pay ${needed}, we could do it. To you it is worth ${worth}.`,
    parts: (side: 'more' | 'less', at: string, now: string, becomes: string) =>
      `If the parts cost ${side} than ${at}, we would advise ${becomes}. We expect ${now}.`,
    minutes: (side: 'more' | 'less', at: string, now: string, becomes: string) =>
      `If the work took ${side} than ${at}, we would advise ${becomes}. We expect ${now}.`,
    minutesTold: (minutes: string) => `${minutes} minutes`,
    hoursTold: (hours: string) => `${hours} hours`,
    nothing: 'Nothing we can think of within reason.',
    firstTheStep: 'First of all, what the next step shows.',
  },

  ruledOut: { shop: 'We lack a tool or a part price for some repairs.' },

  next: {
    takes: (minutes: number, cost: string) => `It takes us about ${minutes} minutes and costs us ${cost}.`,
    takesCheaply: (minutes: number) => `It takes us about ${minutes} minutes and costs us next to nothing.`,
    free: 'You do not pay for it.',
    fee: (fee: string) => `It is part of our work. If the card is not repaired after we tried, you pay ${fee} in all.`,
    ownStock: 'It is our own card, so the cost is ours.',
    leadsTo: (count: string, what: string) => `In ${count} cases, we would then advise ${what}.`,
    same: (count: string, what: string) => `In ${count} cases, our advice would stay: ${what}.`,
    rest: (count: string) => `In the other ${count} cases, something rarer shows, and our advice may change.`,
    after: 'Then we write to you again.',
  },

  rests: {
    estimate:
      'The numbers are estimates. They come from what repair shops often see and from published figures. They are no promise.',
    range: (lowWorks: string, highWorks: string, lowHolds: string, highHolds: string) =>
      `The true number that works may lie from ${lowWorks} to ${highWorks}, the number that lasts from ${lowHolds} to ${highHolds}.`,
    rangeSaysLittle: 'Little is known about how often this works. The true number may be far off.',
    rangeHolds: (low: string, high: string) => `The true number that lasts may lie from ${low} to ${high}.`,
    values: (working: string, asIs: string) =>
      `We took a working card like this one to be worth ${working}, and ${asIs} as it is now. Tell us if that is wrong.`,
    law: 'Your rights under local law stay as they are.',
  },

  consent: {
    repair: 'Please tick one and sign.',
    repairBox: (price: string) => `Please do the advised repair for ${price}, paid only if the card works.`,
    repairAgainBox: 'Please try the repair again at no new price.',
    moneyBackBox: 'Please give me my money back, and the card as it is.',
    repairAnywayBox: (price: string) =>
      `I know that it is not worth it. Please try the repair all the same, for ${price} if the card works.`,
    giveBackBox: 'Please hand the card back as it is.',
    partsBox: 'You may keep the card for parts or recycling.',
    checkBox: 'Please take the next step and write to me again.',
    returned: 'I have got the card back.',
    nothing: 'There is nothing to sign yet.',
    nothingToDo: 'There is nothing to decide and nothing to sign.',
    ownStock: 'This is our own card. No price is set, and nobody outside has to sign.',
    date: 'Date',
    signature: 'Signature',
    phone: 'Questions? Please ask before you sign.',
  },

  warnings: {
    below: (price: string, floor: string, loss: string) =>
      `At ${price} the shop loses. Its cost, risk and margin need ${floor}. It is ${loss} short on average, because the price is paid only when the card works and stays working through the warranty.`,
    above: (price: string, ceiling: string, loss: string) =>
      `At ${price} the owner loses. The repair is worth ${ceiling} to them at most. They are ${loss} worse off on average than leaving the card.`,
    noBand: (floor: string, ceiling: string) =>
      `No price suits both sides: the shop needs ${floor}, and to the owner the repair is worth ${ceiling}.`,
    ownStock: (price: string) => `The card belongs to the shop: the price of ${price} is not used.`,
    nothingSold: (price: string) => `Nothing is sold here: the price of ${price} is not used.`,
  },

  sites: {
    'core-joints': 'solder under the main chip',
    'core-package': 'main chip',
    board: 'circuit board',
    power: 'power parts',
    memory: 'memory',
    firmware: 'built-in software',
    cooling: 'cooler and fans',
    'earlier-rework': 'earlier repair work',
    connectors: 'plugs and sockets',
    host: 'the computer around it',
  } satisfies Record<Site, string>,

  drawing: {
    title: 'Where the fault is likely to be',
    place: (name: string, count: string) => `${name}: ${count}`,
    darker: 'The darker, the more likely.',
    brackets: 'In brackets: how far off we may be.',
  },
};

/** The catalogue every language fills in: the same keys, the same values put into the sentences. */
export type Messages = typeof en;
