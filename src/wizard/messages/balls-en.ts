/** The part of the work that is about the balls, in English. `balls-de.ts` has the same keys. Loaded with that part. */
export const ballsEn = {
  about: (name: string) =>
    `Measured once, kept with the card and printed on the job sheet, for the ${name}. Lengths in mm; 600 µm and 24 mil are read, too.`,
  measures: {
    heading: 'Ball and pads',
    more: 'Paste, and solder that stays on the pads',
    asWork: (alloy: string) => `as the work: ${alloy}`,
    notSaid: 'not said',
    asBall: 'the same as the balls',
  },
  section: {
    caption:
      'Two neighbouring joints between package and board, to scale; lengths in mm. The pads’ thickness is not to scale.',
    one: 'One joint between package and board, to scale; lengths in mm. The pads’ thickness is not to scale.',
    drawn: (standOff: string, widest: string) => `Section of the joint: stand-off ${standOff} mm, widest ${widest} mm`,
    drawnGap: (gap: string) => `, gap to the neighbour ${gap} mm`,
    drawnTouch: ', the neighbours touch',
    package: 'Package',
    board: 'Board',
    touch: 'touch',
    table: 'The joint in figures',
    what: 'What',
    millimetres: 'mm',
    standOff: 'Stand-off after collapse',
    widest: 'Widest diameter',
    gap: 'Gap to the neighbour',
    touchHeight: 'Height at which neighbours touch',
    room: 'May sink by',
    pitch: 'Pitch',
  },
  empty: 'With ball diameter and both pads the joint is drawn here; with the pitch the gap to the neighbour, too.',
  voids: {
    heading: 'Voids in the X-ray image',
    about: 'Ball and voids across, in one image and one unit.',
    voids: 'Voids in it, one after the other',
    example: '0.15 0.2',
  },
  life: {
    heading: 'Leaded or lead-free under this card’s heat cycles',
    about:
      'A cycle is the card from cold to hot and back. The record does not say how hot and how often: ask the owner, read the sensor.',
    runs: (hours: string, used: string, years: string) =>
      `By the record it has run ${hours} h a day on average (${used} hours in ${years} years).`,
    rest: (minutes: string) => `At that many cycles a day each one rests hot for about ${minutes} min.`,
    mined: 'It was mined: then it ran hot for days on end, with few cycles. What counts here is the use to come.',
    use: 'The use to come',
    reference: 'Compared with',
    referenceAbout: 'Left empty: an evening’s use, as shown (estimate).',
    more: 'In days, after Engelmaier, and by heat alone',
    moreAbout:
      'Days need the life of the same joint under the reference, from a test or from the shop’s own returns; Engelmaier needs the strain range of the joint, heat alone an activation energy.',
    drawn: 'How many times as many cycles as under the reference, on a scale of powers of ten',
    asReference: 'as the reference',
    leaded: 'Leaded',
    leadFree: 'Lead-free',
    table: 'The comparison in figures',
    constants: 'Constants',
    cycles: 'Cycles, times',
    days: 'Days, times',
    seen: 'Source',
  },
};

export type BallsMessages = typeof ballsEn;
