/** What is said of how long a shop's own repairs last, in English. Numbers come in as they are written. */
export const en = {
  heading: "How long the bench's own repairs last",
  lead: 'Every card that left working is followed until it came back or until the last word of it. A comeback counts against the repair by how likely it is the repair’s: it relapsed, did not take, or the work did damage. A wrong diagnosis and a new fault only end the time.',
  noTrial:
    'Records of one bench are no trial: a card whose owner never wrote is not followed, and who has trouble writes sooner.',
  read: (records: string) => `Records read: ${records}`,
  silence: (day: string) => `No word counts as a good word up to ${day}, within the warranty.`,
  invented: 'invented cards among them',
  knowledge: (version: string) => `Rules, state ${version}`,

  counts: {
    done: (count: string) => (count === '1' ? 'done once' : `done ${count} times`),
    leftWorking: (count: string) => `left working: ${count}`,
    didNotWork: (count: string) => `did not work on the bench: ${count}`,
    notKnownToWork: (count: string) => `not known to work: ${count}`,
    notHandedBack: (count: string) => `not handed back after this work: ${count}`,
    followed: (count: string) => `followed: ${count}`,
    neverHeardOf: (count: string) => `never heard of again: ${count} (they count for nothing)`,
    back: (count: string, byRemedy: string) => `came back: ${count}, of which ${byRemedy} count against the repair`,
  },
  doubt: {
    'none-heard-of': 'Of none that left working was anything heard again, so nothing can be drawn yet.',
    few: 'Too few were followed for these figures to mean much.',
    'wide-open': 'Every interval is wide open: these figures do not mean anything yet.',
  },
  unjudged: (count: string) => `Could not be judged and count in full: ${count}`,
  dayUnknown: (count: string) =>
    `Came back after a time nobody knows, taken half way from the last good word to the return: ${count}`,

  figure: {
    title: (remedy: string) => `How long cards lasted after: ${remedy}`,
    ofHundred: 'still working, of 100 cards',
    days: 'days since they left',
    followed: 'still followed',
    steps: 'still working (product-limit estimate after Kaplan and Meier)',
    band: '95 % limits for one day each (Greenwood)',
    lost: 'last heard of working, or back for another reason',
    law: (days: string, shape: string) =>
      `Weibull law fitted to these times: 63 of 100 back by day ${days}, shape ${shape}`,
    noLaw: 'No law of time is drawn: fewer than 3 comebacks count against this repair, or their times set none.',
    early: 'Most comebacks come early; who is past the first weeks is past the worst.',
    late: 'Comebacks become more frequent with time: this repair wears out.',
    either: 'Whether comebacks come early or late cannot be told from these times.',
  },
  point: (days: string, of: string, low: string, high: string) =>
    `After ${days} days ${of} of 100 still work (${low} to ${high}).`,
  pointUnknown: (days: string) => `After ${days} days: not known, none was followed so long.`,
  half: (days: string, low: string, high: string) => `Half are back after ${days} days (${low} to ${high}).`,
  halfNotYet: 'Half of them were not back when last heard of.',
  unknown: 'not known',

  table: {
    title: 'In figures',
    day: 'From day',
    followed: 'Followed',
    failed: 'Failed',
    lost: 'Lost sight of',
    working: 'Still working, of 100',
    limits: '95 % limits',
    range: (low: string, high: string) => `${low} to ${high}`,
  },

  relapse: {
    heading: 'Time until a masked fault comes back',
    about:
      'What heat only put to sleep wakes up again. The book gives a time; the bench’s own cards move it, and many decide it.',
    none: 'The records do not yet weigh as much as one relapse; the book’s figures stand.',
    fault: 'Fault',
    after: (remedy: string) => `after: ${remedy}`,
    book: 'Book: half back after',
    learnt: 'Learnt: half back after',
    days: (days: string) => `${days} days`,
    daysRange: (days: string, low: string, high: string) => `${days} days (${low} to ${high})`,
    seen: 'Relapses of masked cards',
    seenOf: (hits: string, trials: string) => `${hits} of ${trials}`,
    few: 'too few to mean much: the book outweighs them',
  },

  empty: {
    heading: 'No repair can be followed yet',
    lead: 'This page fills by itself once cards leave the bench. Three entries on a card are enough:',
    way: [
      { name: 'What was done', does: 'Finish the work under Work on the card, and whether the card works afterwards.' },
      { name: 'Handed back', does: 'Enter under Came back on which day it left: from then on its days count.' },
      {
        name: 'What became of it',
        does: 'Enter that it came back and after how many days, or that it still works. No word at all counts for nothing.',
      },
    ],
    many: 'Below ten cards the figures mean little; they are drawn all the same, with their limits.',
  },

  screen: {
    back: 'Back to the bench',
    reading: 'Reading the cards …',
    weighing: (done: string, of: string) => `Weighing card ${done} of ${of} …`,
    broke: 'The records could not be weighed. Load the page again; nothing is lost.',
    again: 'Try again',
    which: 'What counts',
    withInvented: (count: string) => `Invented cards, too (${count})`,
    withSilence: (days: string) =>
      `No word from the owner as a good word, up to today and for ${days} days of warranty`,
    notRead: (count: string) => `Cards that could not be read and are left out: ${count}`,
    noServer: 'The server does not answer: only what is kept on this device is counted.',
    toKeep: 'To let every later assessment reckon with what was learnt: `npx worth-the-heat remedies --write`',
  },
};

export type Messages = typeof en;
