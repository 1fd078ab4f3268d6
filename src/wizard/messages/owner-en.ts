/** The step that makes the owner's page, in English. `owner-de.ts` has the same keys. Loaded with that step. */
export const ownerEn = {
  blank: 'Nothing is known about this card yet, so there is nothing to tell its owner.',
  toFirstStep: 'To the first step',
  unreadable: 'There is no page while something on the card cannot be read. Put this right first:',
  checkFirst:
    'Not enough is known for a verdict yet: the page says which check comes next, what it costs and what it may lead to.',
  rangesCome: 'The ranges of the chances are still being worked out; the page takes them as soon as they are there.',
  price: 'Price you ask, if it works',
  oneFigure: 'Type one figure, such as 120.',
  slider: 'Price you ask, by slider',
  noPrice: 'No price is asked: the page says that none suits both.',
  noPriceAgain: 'Ask no price',
  backToMiddle: (price: string) => `Back to the middle, ${price}`,
  backToQuote: (price: string) => `Back to what was quoted, ${price}`,
  notQuoted: 'Nothing has been quoted yet: the price stands on this page only.',
  quoted: (price: string, on: string, until: string) => `Quoted on ${on}: ${price}, valid until ${until}.`,
  quotedForOther: (price: string, on: string, until: string) =>
    `Quoted on ${on}, valid until ${until}: ${price}, but for another repair than this one. Quote anew.`,
  quote: (price: string) => `Quoted to the owner: keep ${price} on the card`,
  withdraw: 'Take the quote off the card',
  sides: (shop: string, shopGains: boolean, owner: string, ownerGains: boolean) =>
    `${shop} ${shopGains ? 'more' : 'less'} than the bench needs; ${owner} ${ownerGains ? 'less' : 'more'} than the repair is worth to the owner.`,
  loses: { shop: 'The shop loses.', owner: 'The owner loses.', nobody: 'Mind:' },
  ownStock: 'The card is your own stock: there is nobody to ask a price of, and the page leaves it out.',
  nothingSold: 'Nothing is sold here, so there is no price to choose.',
  noVerdict:
    'There is no price while the findings contradict each other: the page says so, and that the card will be looked at again.',
  language: 'Language of the page',
  languages: { en: 'English', de: 'Deutsch' },
  paper: 'Paper',
  papers: { a4: 'A4', letter: 'US Letter' },
  print: 'Print the page',
  save: 'Save as HTML',
  priceFirst: 'Put the price right first: the page must say what you mean.',
  languageComes: (name: string) => `The page in ${name} is being made; the one shown is still the one before.`,
  preview: "The owner's page, as it is printed",
  onePage: 'Fits on one side.',
  tooLong: 'It is too long for one side and runs on to a second sheet.',
  fullSize: 'Full size',
};

export type OwnerWords = typeof ownerEn;
