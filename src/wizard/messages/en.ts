/**
 * Every sentence of the wizard in English, one section per screen. `de.ts` has the same keys: the type sees to it. Text
 * between backticks is set as code. What comes from `rules/` is data and not here.
 */
import { resultsEn } from './results-en.ts';
import { shippedEn } from './shipped-en.ts';

export const en = {
  ...resultsEn,
  shipped: shippedEn,

  languages: {
    name: 'English',
    /** on the switch, in the language it switches to */
    switchTo: 'Auf Deutsch umschalten',
    /** why some text on the screen is in English; empty where that goes without saying */
  },

  frame: {
    product: 'Worth the heat',
    titleOf: (card: string) => `${card} · Worth the heat`,
    skip: 'Skip to the questions',
    invented: 'invented',
    undo: 'Undo',
    undoLong: 'Take back the last answer (Ctrl+Z)',
    theme: { system: 'system', light: 'light', dark: 'dark' },
    switchTheme: (now: string, next: string) => `Colours: ${now}. Switch to ${next}.`,
    opening: 'Opening the card …',
    missing: 'That card is not here',
    missingServer:
      'The server does not answer and this device holds no copy of it. Start the server with `npm start` and reload.',
    missingAnywhere: 'Neither the server nor this device holds a card under this address.',
    backToBench: 'Back to the bench',
  },

  keeping: {
    saving: 'Saving …',
    saved: 'Saved',
    onThisDevice: (why: string) => `Kept on this device: ${why}`,
    noServer: 'the server does not answer',
    refused: 'the server refused it',
    tryAgain: 'Try again',
    changedElsewhere: 'This card was changed elsewhere too',
    keepMine: 'Keep mine',
    takeTheirs: 'Take that one',
  },

  notices: {
    contradiction: 'The findings contradict each other',
    contradictionAbout:
      'No set of faults this bench knows shows all of this together, so there is no verdict yet. The bench is right and a reading or the knowledge is not: look again, or take back the answer you trust least.',
    lookAgain: (finding: string) => `Look again: ${finding}`,
    takeBack: 'Take back the last answer',
    unreadable: 'Something here cannot be read',
    unreadableLabel: 'Something on the card cannot be read',
    youTyped: 'You typed',
    everythingKept: 'Everything typed is kept. The verdict comes back as soon as this is put right.',
    goTo: (finding: string) => `Go to: ${finding}`,
    failure: 'The assessment broke down',
    failureAbout:
      'Your answers are safe. Reload the page; if it happens again, this is our fault and the text below helps to find it.',
    reload: 'Reload',
    weighing: 'Weighing what is known so far …',
    noVerdict:
      'There is no verdict while this stands. What is wrong, and what to do about it, is said under Where it points.',
    contradictionShort: 'The findings contradict each other',
    unreadableShort: 'Something cannot be read',
    seeWhere: (what: string) => `${what}. See Where it points.`,
    whereItPoints: 'Where it points',
  },

  announcer: {
    verdictSoFar: (verdict: string) => `Verdict so far: ${verdict}.`,
    likeliest: (cause: string, chance: string) => `Likeliest: ${cause}, ${chance}.`,
  },

  bench: {
    heading: 'On the bench',
    newCard: 'New card',
    ownRepairs: 'How long our repairs last',
    noServer:
      'The server does not answer, so this list holds only what is kept on this device. Start it again with `npm start`; what you type meanwhile is kept here and sent then.',
    empty:
      'Put a dead card on the bench and write down what you know: what it is, what it has been through, what it does. After every answer you see what it points at, which check is worth its minutes, and whether the repair is worth the heat. Nothing has to be answered; what you leave out only leaves the verdict less sure.',
    emptyWay: [
      {
        name: 'Describe it',
        does: 'Its class, its history and the words of its owner: a minute, and half the answer.',
      },
      {
        name: 'Look and measure',
        does: 'Without power first: looks, then every rail to ground. Power opens after that.',
      },
      {
        name: 'Follow the next check',
        does: 'It is the one worth most for its minutes, and it says what each result would do.',
      },
      { name: 'Decide', does: 'When no check is worth its minutes any more, the verdict is stamped, with its price.' },
    ],
    emptyKeys:
      'On the keyboard: digits answer, `Enter` goes on, `Ctrl+Z` takes back, `H` shows how a check is done safely.',
    search: 'Search',
    sortBy: 'Sort by',
    sorts: { changed: 'last changed', waiting: 'waiting longest', stage: 'furthest come', title: 'name' },
    shelves: 'Which cards',
    inHand: (count: number) => `In hand ${count}`,
    inArchive: (count: number) => `Archived ${count}`,
    archive: 'Archive',
    unarchive: 'Put back',
    archivedNow: (card: string) => `${card} is archived.`,
    backNow: (card: string) => `${card} is back on the bench.`,
    notArchived: (card: string) => `${card} stays where it is: the server does not answer.`,
    noneHere: 'There is no card here.',
    noneFound: (query: string) => `No card fits "${query}".`,
    stages: {
      arrived: 'just in',
      described: 'described',
      'looked-over': 'looked over',
      measured: 'measured',
      tested: 'tested',
      decided: 'ready to decide',
      quoted: 'quoted, waiting for the owner',
      'on-the-bench': 'on the bench',
      'worked-on': 'worked on',
    },
    onTheBench: (step: number, of: number) => `on the bench: step ${step} of ${of}`,
    onTheBenchDone: 'on the bench: does it work?',
    waiting: (days: number) => (days === 0 ? 'in since today' : days === 1 ? 'waiting 1 day' : `waiting ${days} days`),
    waitsFor: 'Waits for',
    verdict: 'Verdict',
    changed: (when: string) => `changed ${when}`,
    onDeviceOnly: 'kept on this device only',
    nothingKnown: 'nothing known yet',
    weighing: 'weighing …',
    contradicts: 'its findings contradict each other',
    unreadable: 'something on it cannot be read',
  },

  shop: {
    broken: 'The shop profile cannot be read',
    brokenAbout:
      'Until it is put right, every price, chance of profit and list of equipment rests on the invented figures shipped with the tool.',
    readAgain: 'Read it again',
  },

  cases: {
    heading: 'Open a worked case',
    about: 'Invented cards, each with a lesson. Change an answer and it becomes a card of your own.',
    showAll: (count: number) => `Show all ${count} cases`,
  },

  steps: {
    label: 'Steps',
    names: {
      card: 'Card',
      history: 'History',
      symptoms: 'Symptoms',
      looks: 'Looks',
      readings: 'Readings',
      tests: 'Power-up',
      next: 'What next',
      verdict: 'Verdict',
      owner: "Owner's page",
      work: 'Work',
      'came-back': 'Came back',
    },
    asks: {
      card: 'Which card is this, and what is it worth?',
      history: 'What has it been through?',
      symptoms: 'What does the owner say it does?',
      looks: 'What can be seen without power?',
      readings: 'What do the rails read?',
      tests: 'What do the tests show?',
      next: 'Which check is worth its minutes?',
      verdict: 'Is it worth the heat?',
      owner: 'What does the owner get to read?',
      work: 'What is done to it, in which order?',
      'came-back': 'How has it done since the work?',
    },
    answered: 'answered',
    of: (count: number) => `of ${count}`,
    act: 'act',
    onTo: (step: string) => `On to ${step.toLowerCase()}`,
  },

  card: {
    nameIt: 'Name it, so that you find it again',
    nameAbout: 'The owner reads it, too: it stands on their page.',
    titleOfNew: (when: string) => `Card of ${when}`,
    worth: 'What is it worth?',
    worthAbout: (shop: string) =>
      `One figure, or a range such as 120-180. What is left empty is taken from the shop profile, ${shop}.`,
  },

  questions: {
    yes: 'Yes',
    no: 'No',
    cannotTell: "Can't tell",
    cannotTellAnswer: "can't tell",
    notAsked: 'Not asked',
    notLookedAt: 'Not looked at',
    noneOfThese: 'None of these',
    uses: {
      label: 'Bears on',
      more: (count: number) => `and ${count} more`,
      readings: 'what a rail should read',
      safety: 'what is safe to do',
      symptoms: 'what the tests are likely to show',
    },
    chooseAll: 'Choose all that hold.',
    ownerTells: 'As the owner tells it. What the bench sees itself goes under Power-up.',
    notANumber: (typed: string) => `"${typed}" is not a number.`,
    outside: (typed: string) => `${typed} is outside what can be.`,
    typeANumber: (least: string, most: string, unit: string) =>
      `Type a number from ${least} to ${most}${unit ? ` (${unit})` : ''}.`,
  },

  amounts: {
    todo: 'Type one figure (150), a range (120-180) or low, likely and high (120 150 180).',
    empty: 'There is no figure here.',
    belowZero: 'An amount cannot be below zero.',
    notAnAmount: (typed: string) => `"${typed}" is not an amount.`,
    tooMany: 'That is more than three figures.',
    falling: 'The figures must not fall from left to right.',
    farApart: (typed: string) => `${typed} is more than twenty times the likely sum: are two figures run into one?`,
  },

  howTo: {
    safely: 'How to do it safely',
    of: (check: string) => `How: ${check.toLowerCase()}`,
  },

  gates: {
    notWeighed: 'Power waits until the findings so far have been weighed.',
    doneAlready: 'It was done already: write down what was seen',
  },

  tests: {
    next: 'next',
    closed: 'closed',
    worth: (money: string) => `worth ${money}`,
    opensOthers: 'opens others',
    notWorthIt: 'not worth its minutes',
    changesNothing: 'changes nothing',
  },

  readings: {
    about:
      'Type as the meter shows it: `0.31`, `310m`, `1k2`, `4R7`, `OL` for over range. Resistance first, card unpowered; a known-good card of the same board beats every rule of thumb. A column copied from a spreadsheet can be pasted, its heading and the names of the rails with it.',
    caption: 'Resistance to ground and voltage of every rail',
    rail: 'Rail',
    toGround: 'To ground',
    knownGood: 'Known good',
    says: 'Says',
    voltage: 'Voltage',
    resistanceOf: (rail: string) => `${rail}, resistance to ground`,
    knownGoodOf: (rail: string) => `${rail}, resistance to ground on a known-good card`,
    voltageOf: (rail: string) => `${rail}, voltage`,
    resistanceInWords: (rail: string) => `${rail}, resistance in words`,
    voltageInWords: (rail: string) => `${rail}, voltage in words`,
    byNumber: 'by number',
    stateByNumber: (state: string) => `${state}, by number`,
    takeOut: 'take the number out',
    notMeasured: 'not measured',
    againstKnownGood: 'against known good',
    orType: 'Or type the reading',
    knownGoodCard: 'Known-good card',
    fitsNoState: 'fits no state',
    leads: 'Leads, tips held together',
    leadsAbout: 'Taken off every resistance below. 0 if the meter was zeroed.',
    fourWire: 'Four-wire',
    meter: 'Meter',
    usualMeter: (name: string) => (name === '' ? 'as in the shop profile' : `${name} (shop profile)`),
    otherMeter: (name: string) => (name === '' ? 'as recorded with the readings' : `${name} (as recorded)`),
    meterStates: (percent: string, digits: string) => `±(${percent} % + ${digits} counts)`,
    normalRange: (from: string | null, to: string | null) =>
      from === null ? `normal up to ${to}` : to === null ? `normal from ${from}` : `normal ${from} to ${to}`,
    readsWithin: (value: string, spread: string | null) =>
      spread === null ? `reads ${value}` : `reads ${value} ± ${spread}`,
    overRange: 'over range',
    pasted: (taken: number, unreadable: number, left: number) =>
      [
        `${taken} ${taken === 1 ? 'value' : 'values'} pasted`,
        ...(unreadable > 0
          ? [`${unreadable} cannot be read yet and ${unreadable === 1 ? 'waits' : 'wait'} in the table`]
          : []),
        ...(left > 0 ? [`${left} had no place in the table`] : []),
      ].join(', '),
    pastedHeading: (words: string) => `read as a heading: “${words}”`,
    pastedByName: 'each row beside the rail it names',
    rails: {
      core: 'Core',
      'core-second': 'Second core rail',
      memory: 'Memory',
      'pcie-rail': 'PCIe rail',
      '1v8': '1.8 V',
      '3v3': '3.3 V',
      '5v': '5 V',
      '12v-slot': '12 V slot',
      '12v-input': '12 V input',
      '12v-input-second': '12 V second input',
    },
  },

  later: {
    comes: 'One moment …',
    failed:
      'This part of the tool could not be loaded. Everything typed is kept; reload when the server answers again.',
    reload: 'Reload',
  },

  offline: {
    newerReady: 'A newer version of this tool is ready.',
    newerElsewhere: 'Another window has loaded a newer version; this one still runs the one before.',
    newerAbout: 'Everything typed is kept.',
    loadNewer: 'Load it now',
  },

  words: {
    never: 'never',
    always: 'always',
    lessThanOne: 'less than 1 of 100',
    nearlyAlways: 'nearly always',
    outOfHundred: (count: number) => `${count} of 100`,
    minutes: (count: string) => `${count} min`,
    hours: (count: string) => `${count} h`,
    days: (count: number) => (count === 1 ? '1 day' : `${count} days`),
    months: (count: number) => `${count} months`,
    neither: 'says nothing either way',
    slightly: { for: 'slightly for', against: 'slightly against' },
    speaks: { for: 'speaks for', against: 'speaks against' },
    strongly: { for: 'strongly for', against: 'strongly against' },
    proves: { for: 'all but proves it', against: 'all but rules it out' },
    verdicts: {
      reflow: 'Reflow',
      reball: 'Reball',
      'component-swap': 'Swap the part',
      'core-swap': 'Swap the core',
      service: 'Service it',
      return: 'Give it back: it is sound',
      scrap: 'Not worth the heat',
    },
    stamps: {
      reflow: 'reflow',
      reball: 'reball',
      'component-swap': 'part swap',
      'core-swap': 'core swap',
      service: 'service',
      return: 'return',
      scrap: 'scrap',
    },
    unknownTime: 'at an unknown time',
    justNow: 'just now',
    minutesAgo: (count: number) => `${count} min ago`,
  },
};

/** Every catalogue has these sections, keys and parameters. */
export type Messages = typeof en;
