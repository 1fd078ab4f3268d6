/** Der Teil der Arbeit, in dem es um die Kugeln geht, auf Deutsch. */
import type { BallsMessages } from './balls-en.ts';

export const ballsDe: BallsMessages = {
  about: (name) =>
    `Einmal gemessen, mit der Karte aufbewahrt und auf dem Arbeitsblatt gedruckt, für: ${name}. Längen in mm; auch 600 µm und 24 mil werden gelesen.`,
  measures: {
    heading: 'Kugel und Pads',
    more: 'Paste, und Lot, das auf den Pads bleibt',
    asWork: (alloy) => `wie die Arbeit: ${alloy}`,
    notSaid: 'nicht angegeben',
    asBall: 'dieselbe wie die Kugeln',
  },
  section: {
    caption:
      'Zwei benachbarte Lötstellen zwischen Gehäuse und Platine, maßstäblich; Längen in mm. Die Dicke der Pads ist nicht maßstäblich.',
    one: 'Eine Lötstelle zwischen Gehäuse und Platine, maßstäblich; Längen in mm. Die Dicke der Pads ist nicht maßstäblich.',
    drawn: (standOff, widest) => `Schnitt durch die Lötstelle: Abstand ${standOff} mm, breiteste Stelle ${widest} mm`,
    drawnGap: (gap) => `, Lücke zur Nachbarin ${gap} mm`,
    drawnTouch: ', die Nachbarinnen berühren sich',
    package: 'Gehäuse',
    board: 'Platine',
    touch: 'berühren sich',
    table: 'Die Lötstelle in Zahlen',
    what: 'Was',
    millimetres: 'Länge in mm',
    standOff: 'Abstand nach dem Zusammensinken',
    widest: 'Breiteste Stelle',
    gap: 'Lücke zur Nachbarin',
    touchHeight: 'Höhe, bei der Nachbarinnen sich berühren',
    room: 'Darf sinken um',
    pitch: 'Raster',
  },
  empty:
    'Mit Kugeldurchmesser und beiden Pads wird die Lötstelle hier gezeichnet, mit dem Raster auch die Lücke zur Nachbarin.',
  voids: {
    heading: 'Poren im Röntgenbild',
    about: 'Kugel und Poren quer gemessen, in einem Bild und einer Einheit.',
    voids: 'Poren darin, eine nach der anderen',
    example: '0,15 0,2',
  },
  life: {
    heading: 'Bleihaltig oder bleifrei unter den Wärmezyklen dieser Karte',
    about:
      'Ein Zyklus ist die Karte von kalt zu heiß und zurück. Wie heiß und wie oft, sagt die Akte nicht: Besitzer fragen, Sensor ablesen.',
    runs: (hours, used, years) =>
      `Laut Akte lief sie im Mittel ${hours} h am Tag (${used} Stunden in ${years} Jahren).`,
    rest: (minutes) => `Bei so vielen Zyklen am Tag ruht jeder etwa ${minutes} min lang heiß.`,
    mined:
      'Mit ihr wurde geschürft: dabei lief sie tagelang heiß, mit wenigen Zyklen. Hier zählt der künftige Gebrauch.',
    use: 'Der künftige Gebrauch',
    reference: 'Verglichen mit',
    referenceAbout: 'Leer gelassen: Gebrauch am Feierabend, wie gezeigt (Schätzung).',
    more: 'In Tagen, nach Engelmaier, und durch Hitze allein',
    moreAbout:
      'Für Tage braucht es die Lebensdauer derselben Lötstelle im Vergleich, aus einem Versuch oder aus eigenen Rückläufern; für Engelmaier die Scherdehnung der Lötstelle, für Hitze allein eine Aktivierungsenergie.',
    drawn: 'Wievielmal so viele Zyklen wie im Vergleich, auf einer Skala von Zehnerpotenzen',
    asReference: 'wie im Vergleich',
    leaded: 'Bleihaltig',
    leadFree: 'Bleifrei',
    table: 'Der Vergleich in Zahlen',
    constants: 'Konstanten',
    cycles: 'Zyklen, mal',
    days: 'Tage, mal',
    seen: 'Quelle',
  },
};
