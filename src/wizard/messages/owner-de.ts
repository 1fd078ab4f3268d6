/** Der Schritt, in dem die Seite für den Besitzer entsteht, auf Deutsch. */
import type { OwnerWords } from './owner-en.ts';

export const ownerDe: OwnerWords = {
  blank: 'Über diese Karte ist noch nichts bekannt, also gibt es ihrem Besitzer nichts zu sagen.',
  toFirstStep: 'Zum ersten Schritt',
  unreadable: 'Es gibt keine Seite, solange sich etwas an der Karte nicht lesen lässt. Zuerst in Ordnung bringen:',
  checkFirst:
    'Für ein Urteil ist noch nicht genug bekannt: Die Seite sagt, welche Prüfung als Nächstes kommt, was sie kostet und wohin sie führen kann.',
  rangesCome: 'Die Spannen der Chancen werden noch berechnet; die Seite übernimmt sie, sobald sie da sind.',
  price: 'Ihr Preis, wenn sie läuft',
  oneFigure: 'Eine Zahl eingeben, etwa 120.',
  slider: 'Ihr Preis, mit dem Schieber',
  noPrice: 'Es wird kein Preis verlangt: Die Seite sagt, dass keiner beiden nützt.',
  noPriceAgain: 'Keinen Preis verlangen',
  backToMiddle: (price) => `Zurück zur Mitte, ${price}`,
  backToQuote: (price) => `Zurück zum angebotenen Preis, ${price}`,
  notQuoted: 'Noch nichts angeboten: Der Preis steht nur auf dieser Seite.',
  quoted: (price, on, until) => `Angeboten am ${on}: ${price}, gültig bis ${until}.`,
  quotedForOther: (price, on, until) =>
    `Angeboten am ${on}, gültig bis ${until}: ${price}, aber für eine andere Reparatur als diese. Neu anbieten.`,
  quote: (price) => `So angeboten: ${price} auf der Karte festhalten`,
  withdraw: 'Angebot von der Karte nehmen',
  sides: (shop, shopGains, owner, ownerGains) =>
    `${shop} ${shopGains ? 'mehr' : 'weniger'}, als die Werkstatt braucht; ${owner} ${ownerGains ? 'weniger' : 'mehr'}, als die Reparatur dem Besitzer wert ist.`,
  loses: { shop: 'Die Werkstatt verliert.', owner: 'Der Besitzer verliert.', nobody: 'Achtung:' },
  ownStock: 'Die Karte gehört Ihnen: Einen Preis zahlt niemand, und die Seite lässt ihn weg.',
  nothingSold: 'Hier wird nichts verkauft, also gibt es keinen Preis zu wählen.',
  noVerdict:
    'Solange die Befunde einander widersprechen, gibt es keinen Preis: Die Seite sagt das, und dass die Karte noch einmal angesehen wird.',
  language: 'Sprache der Seite',
  languages: { en: 'English', de: 'Deutsch' },
  paper: 'Papier',
  papers: { a4: 'A4', letter: 'US Letter' },
  print: 'Seite drucken',
  save: 'Als HTML sichern',
  priceFirst: 'Zuerst den Preis in Ordnung bringen: Die Seite muss sagen, was Sie meinen.',
  languageComes: (name: string) => `Die Seite auf ${name} wird gerade geschrieben; gezeigt ist noch die vorige.`,
  preview: 'Die Seite für den Besitzer, wie sie gedruckt wird',
  onePage: 'Passt auf eine Seite.',
  tooLong: 'Für eine Seite ist das zu lang: Es läuft auf ein zweites Blatt.',
  fullSize: 'Volle Größe',
};
