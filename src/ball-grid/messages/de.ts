/** Was von einer Kugel-Lötstelle gesagt wird, auf Deutsch. */
import type { BallMessages } from './en.ts';

const format = new Intl.NumberFormat('de', { useGrouping: false, maximumFractionDigits: 10 });

export const de: BallMessages = {
  number: (value) => format.format(value),
  fields: {
    ballMillimetres: 'Kugeldurchmesser',
    packagePadMillimetres: 'Pad am Gehäuse',
    boardPadMillimetres: 'Pad auf der Platine',
    pitchMillimetres: 'Raster',
    pasteCubicMillimetres: 'Paste je Kugel',
    leftMillimetres: 'Höhe des Lots, das auf den Pads blieb',
    ballAlloy: 'Legierung der Kugeln',
    padAlloy: 'Legierung auf den Pads',
    imageMillimetres: 'Kugel im Röntgenbild',
    voidsMillimetres: 'Poren darin',
    swingKelvin: 'Temperaturhub',
    hottestCelsius: 'höchste Temperatur',
    cyclesPerDay: 'Zyklen am Tag',
    referenceSwingKelvin: 'Temperaturhub im Vergleich',
    referenceHottestCelsius: 'höchste Temperatur im Vergleich',
    referenceCyclesPerDay: 'Zyklen am Tag im Vergleich',
    referenceCycles: 'Lebensdauer im Vergleich',
    referenceShape: 'Weibull-Form im Vergleich',
    strainRange: 'Scherdehnung je Zyklus',
    dwellMinutes: 'Haltezeit',
    activationElectronvolts: 'Aktivierungsenergie',
  },
  seen: { seen: 'eingesehen', quoted: 'zitiert', memory: 'aus dem Gedächtnis' },
  constants: {
    snpb: 'Konstanten für SnPb',
    'pan-2005': 'SnAgCu, Pan u. a. 2005',
    'lall-2012': 'SAC305, Lall u. a. 2012',
    'snpb-constants': 'Konstanten für SnPb, wie manche Seiten sie ansetzen',
  },
  sources: {
    'ipc-7095': 'IPC-7095',
    'ipc-a-610': 'IPC-A-610',
    'esa-reliability-handbook': 'ESA-Handbuch zur Lebensdauer von Lötstellen',
    'pan-2005': 'wie andere es zitieren',
    'lall-2012': 'Lall u. a. 2012',
    'engelmaier-test-values': 'veröffentlichte Prüfwerte des Modells',
  },
  given: (values) => `Angegeben: ${values}.`,
  perDay: (cycles) => (cycles === '1' ? '1 Zyklus am Tag' : `${cycles} Zyklen am Tag`),
  headings: {
    shape: 'Lötstelle',
    mixture: 'Gemischtes Lot',
    voids: 'Poren',
    life: 'Bleihaltig oder bleifrei unter Wärmezyklen',
    engelmaier: 'Mittlere Lebensdauer nach Engelmaier',
  },
  shape: {
    standOff: (height, widest, pitch) =>
      `Abstand ${height} mm nach dem Zusammensinken, breiteste Stelle ${widest} mm${pitch}.`,
    atPitch: (pitch) => `, bei einem Raster von ${pitch} mm`,
    volume: (whole) => `Lot ${whole} mm³.`,
    volumeOf: (whole, ball, more) => `Lot ${whole} mm³: ${ball} aus der Kugel, ${more}.`,
    paste: (volume) => `${volume} Metall aus der Paste (die Hälfte ihres Volumens, Schätzung)`,
    left: (volume) => `${volume} auf beiden Pads stehen geblieben`,
    gap: (gap, percent) => `Lücke zur Nachbarin ${gap} mm, ${percent} des Rasters.`,
    sink: (touch, room) =>
      `Nachbarinnen berühren sich, wenn das Gehäuse nur noch ${touch} mm hoch steht: es darf um ${room} mm sinken, gedrückt oder verzogen, und nicht weiter.`,
    touch: (over) => `Benachbarte Lötstellen berühren sich: sie sind ${over} mm breiter, als das Raster Platz lässt.`,
    noPitch: 'Für die Lücke zur Nachbarin das Raster angeben.',
    geometryAlone:
      'Allein aus der Geometrie: Gewicht des Gehäuses, Lötstopplack und Durchkontaktierungen sind nicht gerechnet, eine wirkliche Lötstelle ist niedriger und breiter. Eine Chance für einen Kurzschluss steht hier nicht.',
    land: (side, pad, fit, ball) =>
      `Pad ${side === 'package' ? 'am Gehäuse' : 'auf der Platine'}, ${pad} mm: ${
        { fits: 'passt zu einer', 'too-small': 'zu klein für eine', 'too-large': 'zu groß für eine' }[fit]
      } Kugel von ${ball} mm`,
    landRow: (usual, from, to, source) => `; Anschlussfläche ${usual} mm, ${from} bis ${to} mm (${source}).`,
    noRow: (ball, balls, source) =>
      `Die Tabelle der Anschlussflächen kennt keine Kugel von ${ball} mm; sie kennt ${balls} mm (${source}).`,
  },
  mixture: {
    same: (alloy) => `Eine Legierung, ${alloy}: was auf den Pads bleibt, gilt als dieselbe.`,
    sameSaid: (alloy) => `Eine Legierung, ${alloy}, in Kugel und auf den Pads.`,
    mixed: (ball, share, pad, mass) => `${ball} macht ${share} des Volumens aus, ${pad} den Rest; nach Masse ${mass}.`,
    unknownVolumes: (ball, pad) =>
      `${ball} auf ${pad}: wie viel von jedem, ist nicht bekannt. Für die Zusammensetzung die Höhe des Lots auf den Pads angeben, oder die Paste.`,
    unknownDensity: (ball, pad) =>
      `${ball} auf ${pad}: für eine davon kennt die Tabelle keine Dichte, die Zusammensetzung nach Masse bleibt offen.`,
    note: (note) => {
      switch (note.id) {
        case 'mixes-in-part':
          return `Unter ${note.celsius} °C schmilzt der Anteil ${note.alloy} nicht durch: die Lötstelle mischt sich nur zum Teil und ungleichmäßig.`;
        case 'lowers-melting':
          return 'Bleihaltiges Lot dazu senkt den Schmelzbereich einer bleifreien Lötstelle: üblich zum Abnehmen, nicht für Lötstellen, die bleiben.';
        case 'lead':
          return 'Blei über 0,1 % der Masse: Regeln für Verkauf und Reparatur sind je nach Ort verschieden; dort nachfragen.';
        case 'bismuth-with-lead':
          return 'Bismut bildet mit Blei eine Phase, die nahe 96 °C schmilzt (aus dem Gedächtnis): nie mischen.';
      }
    },
  },
  voids: {
    percent: (percent, count) =>
      `${count === 1 ? 'Die Pore nimmt' : `${count} Poren nehmen`} ${percent} vom Bild der Kugel ein; was sich überdeckt, zählt doppelt.`,
    none: 'Keine Pore: 0 % vom Bild der Kugel.',
    limit: (source, revision, percent, within, seenAs) =>
      `${source}, Ausgabe ${revision.replace('and later', 'und später')}: höchstens ${percent}, ${within ? 'eingehalten' : 'ÜBERSCHRITTEN'} (${seenAs}).`,
  },
  life: {
    use: (swing, hottest, cycles) => `Dieser Gebrauch: ein Hub von ${swing} K bis ${hottest} °C, ${cycles}.`,
    stated: (swing, hottest, cycles) => `Der Vergleich, wie angegeben: ${swing} K bis ${hottest} °C, ${cycles}.`,
    assumed: (swing, hottest, cycles) =>
      `Der Vergleich, da keiner angegeben ist: ${swing} K bis ${hottest} °C, ${cycles} (Schätzung). Besser einen eigenen angeben.`,
    leaded: (cycles, days, source) =>
      `Bleihaltig: ${cycles}-mal so viele Zyklen wie im Vergleich, ${days}-mal so viele Tage (${source}).`,
    leadFree: (low, high, lowDays, highDays) =>
      `Bleifrei: ${low}- bis ${high}-mal so viele Zyklen, ${lowDays}- bis ${highDays}-mal so viele Tage.`,
    spread: (sets, factor) =>
      `Nach jedem Satz Konstanten: ${sets}. Sie liegen um den Faktor ${factor} auseinander, und auf keinen hat man sich geeinigt: der Bereich ist die Antwort, keine Zahl darin.`,
    costsMore: {
      leaded:
        'Nach jedem Satz, der an bleifreiem Lot gewonnen ist, kostet dieser Gebrauch bleihaltige Lötstellen den größeren Teil ihrer Lebensdauer im Vergleich.',
      'lead-free':
        'Nach jedem Satz, der an bleifreiem Lot gewonnen ist, kostet dieser Gebrauch bleifreie Lötstellen den größeren Teil ihrer Lebensdauer im Vergleich.',
      'cannot-tell':
        'Welches von beiden dieser Gebrauch gegenüber dem Vergleich mehr altern lässt, sagen die Konstanten nicht.',
    },
    eachWithItself:
      'Jedes Lot wird mit sich selbst verglichen: welches im Vergleich selbst länger lebt, steht nicht in diesen Zahlen.',
    days: (solder, tenth, half, characteristic) =>
      `${solder}: ein Zehntel ausgefallen nach ${tenth} Tagen, die Hälfte nach ${half}, 63,2 % nach ${characteristic}.`,
    heatAlone: (activation, fast, hottest, reference) =>
      `Hitze allein, neben den Zyklen: eine Veränderung mit einer Aktivierungsenergie von ${activation} eV (wie angegeben) läuft bei ${hottest} °C ${fast}-mal so schnell wie bei ${reference} °C im Vergleich (Arrhenius).`,
    daysFrom: (cycles, shape) =>
      `Mit der angegebenen Lebensdauer im Vergleich (63,2 % ausgefallen nach ${cycles} Zyklen, Weibull-Form ${shape}), für beide Lote angesetzt:`,
    leadedName: 'Bleihaltig',
    leadFreeName: (name) => `Bleifrei, ${name}`,
    comparison:
      'Das vergleicht einen Gebrauch mit einem angegebenen Vergleich für dieselbe Lötstelle; es sagt nichts zu Stürzen, Biegung, Unterfüllung, Poren oder schlechter Benetzung und verspricht keine Lebensdauer.',
  },
  engelmaier: {
    median: (cycles, days, perDay) =>
      `Die Hälfte solcher bleihaltigen Lötstellen fällt bis ${cycles} Zyklen aus, das sind ${days} Tage bei ${perDay}.`,
    from: (strain, mean, dwell, exponent, source) =>
      `Aus einer Scherdehnung von ${strain}, im Mittel ${mean} °C und ${dwell} min Haltezeit; Exponent ${exponent} (${source}). Nur für SnPb: für bleifreies Lot folgt daraus nichts.`,
    comparison:
      'Eine Zahl, um gleichartige Lötstellen zu vergleichen, so weit die Scherdehnung bekannt ist: kein Versprechen.',
  },
  missing: (fields) => `Noch nötig: ${fields}.`,
  and: 'und',
  refused: {
    outside: (typed, field) => `„${typed}“ kann nicht stimmen (${field}).`,
    above: (least, most) => `Eine Zahl über ${least} und bis ${most} angeben.`,
    from: (least, most) => `Eine Zahl von ${least} bis ${most} angeben.`,
    notOneNumber: (typed) => ({
      wrong: `„${typed}“ ist keine einzelne Zahl.`,
      todo: 'Eine Zahl mit einem Dezimalzeichen eintippen, etwa 0.6 oder 0,6.',
    }),
    voidOutside: (typed, most) => ({
      wrong: `„${typed}“ kann nicht die Breite einer Pore sein.`,
      todo: `Breiten von 0 bis ${most} mm angeben, etwa 0,15 0,2.`,
    }),
    voidTooWide: (widest, image) => ({
      wrong: `Eine Pore von ${widest} mm ist breiter als ihre Kugel von ${image} mm im Bild.`,
      todo: 'Beide in demselben Bild und in einer Einheit messen.',
    }),
    padAsWideAsPitch: (field, pad, pitch) => ({
      wrong: `${field}, ${pad} mm: so breit wie das Raster von ${pitch} mm, benachbarte Pads würden sich berühren.`,
      todo: 'Das Pad über sein Kupfer messen und das Raster von Mitte zu Mitte.',
    }),
    alloy: (typed, known) => ({
      wrong: `„${typed}“ ist keine Legierung der Tabelle.`,
      todo: `Eine davon wählen: ${known}.`,
    }),
  },
};
