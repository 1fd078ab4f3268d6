/** Was über die Haltbarkeit der eigenen Reparaturen gesagt wird, auf Deutsch. */
import type { Messages } from './en.ts';

export const de: Messages = {
  heading: 'Wie lange die eigenen Reparaturen halten',
  lead: 'Jede Karte, die laufend hinausging, wird verfolgt, bis sie zurückkam oder bis zur letzten Nachricht von ihr. Eine Rückkehr zählt so weit gegen die Reparatur, wie sie wahrscheinlich an ihr liegt: Rückfall, wirkungslos, oder Schaden durch die Arbeit. Falsche Diagnose und neuer Fehler beenden nur die Zeit.',
  noTrial:
    'Die Aufzeichnungen einer Werkbank sind kein Versuch: Wessen Besitzer nie schreibt, die Karte wird nicht verfolgt, und wer Ärger hat, meldet sich eher.',
  read: (records) => `Gelesene Karten: ${records}`,
  silence: (day) => `Keine Nachricht gilt bis ${day} als gute Nachricht, innerhalb der Garantie.`,
  invented: 'erfundene Karten darunter',
  knowledge: (version) => `Regeln, Stand ${version}`,

  counts: {
    done: (count) => (count === '1' ? 'einmal gemacht' : `${count}-mal gemacht`),
    leftWorking: (count) => `lief danach: ${count}`,
    didNotWork: (count) => `lief auf der Werkbank nicht: ${count}`,
    notKnownToWork: (count) => `nicht bekannt, ob sie lief: ${count}`,
    notHandedBack: (count) => `nach dieser Arbeit nicht zurückgegeben: ${count}`,
    followed: (count) => `verfolgt: ${count}`,
    neverHeardOf: (count) => `nie wieder gehört: ${count} (sie zählen nicht)`,
    back: (count, byRemedy) => `zurückgekommen: ${count}, davon zählen ${byRemedy} gegen die Reparatur`,
  },
  doubt: {
    'none-heard-of': 'Von keiner, die lief, hat man wieder gehört; darum lässt sich noch nichts zeichnen.',
    few: 'Zu wenige wurden verfolgt, als dass diese Zahlen viel bedeuten.',
    'wide-open': 'Jede Spanne ist weit offen: Diese Zahlen bedeuten noch nichts.',
  },
  unjudged: (count) => `Nicht zu beurteilen, zählen ganz: ${count}`,
  dayUnknown: (count) =>
    `Nach unbekannter Zeit zurück, gerechnet auf halbem Weg vom letzten guten Wort zur Rückkehr: ${count}`,

  figure: {
    title: (remedy) => `Wie lange Karten hielten nach: ${remedy}`,
    ofHundred: 'laufen noch, von 100 Karten',
    days: 'Tage seit der Abgabe',
    followed: 'noch verfolgt',
    steps: 'laufen noch (Schätzung nach Kaplan und Meier)',
    band: '95-%-Grenzen für je einen Tag (Greenwood)',
    lost: 'zuletzt als laufend gehört, oder aus anderem Grund zurück',
    law: (days, shape) =>
      `An diese Zeiten angepasstes Weibull-Gesetz: 63 von 100 zurück bis Tag ${days}, Form ${shape}`,
    noLaw:
      'Kein Zeitgesetz gezeichnet: Weniger als 3 Rückkehrer zählen gegen diese Reparatur, oder ihre Zeiten legen keines fest.',
    early: 'Die meisten kommen früh zurück; wer die ersten Wochen hinter sich hat, hat das Schlimmste hinter sich.',
    late: 'Mit der Zeit kommen mehr zurück: Diese Reparatur nutzt sich ab.',
    either: 'Ob sie früh oder spät zurückkommen, lässt sich aus diesen Zeiten nicht sagen.',
  },
  point: (days, of, low, high) => `Nach ${days} Tagen laufen noch ${of} von 100 (${low} bis ${high}).`,
  pointUnknown: (days) => `Nach ${days} Tagen: nicht bekannt, so lange wurde keine verfolgt.`,
  half: (days, low, high) => `Die Hälfte ist nach ${days} Tagen zurück (${low} bis ${high}).`,
  halfNotYet: 'Als man zuletzt von ihnen hörte, war die Hälfte noch nicht zurück.',
  unknown: 'nicht bekannt',

  table: {
    title: 'In Zahlen',
    day: 'Ab Tag',
    followed: 'Verfolgt',
    failed: 'Ausgefallen',
    lost: 'Nicht weiter verfolgt',
    working: 'Laufen noch, von 100',
    limits: '95-%-Grenzen',
    range: (low, high) => `${low} bis ${high}`,
  },

  relapse: {
    heading: 'Zeit, bis ein verdeckter Fehler wiederkommt',
    about:
      'Was Hitze nur schlafen legte, wacht wieder auf. Das Buch nennt eine Zeit; die eigenen Karten verschieben sie, und viele entscheiden sie.',
    none: 'Die Aufzeichnungen wiegen noch nicht so viel wie ein Rückfall; es gelten die Zahlen des Buchs.',
    fault: 'Fehler',
    after: (remedy) => `nach: ${remedy}`,
    book: 'Buch: Hälfte zurück nach',
    learnt: 'Gelernt: Hälfte zurück nach',
    days: (days) => `${days} Tagen`,
    daysRange: (days, low, high) => `${days} Tagen (${low} bis ${high})`,
    seen: 'Rückfälle verdeckter Karten',
    seenOf: (hits, trials) => `${hits} von ${trials}`,
    few: 'zu wenige, um viel zu bedeuten: das Buch überwiegt sie',
  },

  empty: {
    heading: 'Noch lässt sich keine Reparatur verfolgen',
    lead: 'Diese Seite füllt sich von selbst, sobald Karten die Werkbank verlassen. Drei Einträge an einer Karte genügen:',
    way: [
      { name: 'Was gemacht wurde', does: 'Bei der Karte unter „Arbeit“ abschließen, und ob sie danach läuft.' },
      {
        name: 'Zurückgegeben',
        does: 'Unter „Zurückgekommen“ eintragen, an welchem Tag sie wegging: Ab da zählen ihre Tage.',
      },
      {
        name: 'Was aus ihr wurde',
        does: 'Eintragen, dass sie zurückkam und nach wie vielen Tagen, oder dass sie noch läuft. Keine Nachricht zählt nicht.',
      },
    ],
    many: 'Unter zehn Karten bedeuten die Zahlen wenig; gezeichnet werden sie trotzdem, mit ihren Grenzen.',
  },

  screen: {
    back: 'Zurück zur Werkbank',
    reading: 'Die Karten werden gelesen …',
    weighing: (done, of) => `Karte ${done} von ${of} wird abgewogen …`,
    broke: 'Die Karten ließen sich nicht abwägen. Die Seite neu laden; verloren ist nichts.',
    again: 'Noch einmal',
    which: 'Was zählt',
    withInvented: (count) => `Auch erfundene Karten (${count})`,
    withSilence: (days) => `Keine Nachricht vom Besitzer als gute Nachricht, bis heute und für ${days} Tage Garantie`,
    notRead: (count) => `Karten, die sich nicht lesen ließen und fehlen: ${count}`,
    noServer: 'Der Server antwortet nicht: Gezählt wird nur, was auf diesem Gerät liegt.',
    toKeep: 'Damit jedes spätere Urteil mit dem Gelernten rechnet: `npx worth-the-heat remedies --write`',
  },
};
