/** Jeder Satz der Oberfläche auf Deutsch; die Schlüssel gibt `en.ts` vor. */
import type { Messages } from './en.ts';
import { resultsDe } from './results-de.ts';
import { shippedDe } from './shipped-de.ts';

export const de: Messages = {
  ...resultsDe,
  shipped: shippedDe,

  languages: {
    name: 'Deutsch',
    switchTo: 'Switch to English',
  },

  frame: {
    product: 'Worth the heat',
    titleOf: (card) => `${card} · Worth the heat`,
    skip: 'Zu den Fragen springen',
    invented: 'erfunden',
    undo: 'Rückgängig',
    undoLong: 'Letzte Antwort zurücknehmen (Strg+Z)',
    theme: { system: 'System', light: 'hell', dark: 'dunkel' },
    switchTheme: (now, next) => `Farben: ${now}. Umschalten auf ${next}.`,
    opening: 'Die Karte wird geöffnet …',
    missing: 'Diese Karte gibt es hier nicht',
    missingServer:
      'Der Server antwortet nicht, und auf diesem Gerät liegt keine Kopie. Den Server mit `npm start` starten und neu laden.',
    missingAnywhere: 'Unter dieser Adresse liegt weder auf dem Server noch auf diesem Gerät eine Karte.',
    backToBench: 'Zurück zur Werkbank',
  },

  keeping: {
    saving: 'Wird gespeichert …',
    saved: 'Gespeichert',
    onThisDevice: (why) => `Auf diesem Gerät gesichert: ${why}`,
    noServer: 'der Server antwortet nicht',
    refused: 'der Server hat es abgelehnt',
    tryAgain: 'Noch einmal versuchen',
    changedElsewhere: 'Diese Karte wurde auch anderswo geändert',
    keepMine: 'Meine behalten',
    takeTheirs: 'Die andere nehmen',
  },

  notices: {
    contradiction: 'Die Befunde widersprechen sich',
    contradictionAbout:
      'Kein Satz von Fehlern, den diese Werkbank kennt, zeigt all das zusammen; darum gibt es noch kein Urteil. Die Werkbank hat recht, und eine Messung oder das Wissen irrt: noch einmal hinsehen oder die Antwort zurücknehmen, der Sie am wenigsten trauen.',
    lookAgain: (finding) => `Noch einmal ansehen: ${finding}`,
    takeBack: 'Letzte Antwort zurücknehmen',
    unreadable: 'Hier lässt sich etwas nicht lesen',
    unreadableLabel: 'Auf der Karte lässt sich etwas nicht lesen',
    youTyped: 'Eingetippt wurde',
    everythingKept: 'Alles Getippte bleibt erhalten. Das Urteil kommt zurück, sobald das richtiggestellt ist.',
    goTo: (finding) => `Gehe zu: ${finding}`,
    failure: 'Die Bewertung ist zusammengebrochen',
    failureAbout:
      'Ihre Antworten sind sicher. Laden Sie die Seite neu; geschieht es wieder, liegt der Fehler bei uns, und der Text unten hilft, ihn zu finden.',
    reload: 'Neu laden',
    weighing: 'Das bisher Bekannte wird abgewogen …',
    noVerdict:
      'Solange das so steht, gibt es kein Urteil. Was nicht stimmt und was zu tun ist, steht unter „Wohin es deutet“.',
    contradictionShort: 'Die Befunde widersprechen sich',
    unreadableShort: 'Etwas lässt sich nicht lesen',
    seeWhere: (what) => `${what}. Siehe „Wohin es deutet“.`,
    whereItPoints: 'Wohin es deutet',
  },

  announcer: {
    verdictSoFar: (verdict) => `Urteil bis jetzt: ${verdict}.`,
    likeliest: (cause, chance) => `Am wahrscheinlichsten: ${cause}, ${chance}.`,
  },

  bench: {
    heading: 'Auf der Werkbank',
    newCard: 'Neue Karte',
    ownRepairs: 'Wie lange eigene Reparaturen halten',
    noServer:
      'Der Server antwortet nicht; diese Liste enthält darum nur, was auf diesem Gerät liegt. Mit `npm start` läuft er wieder; was Sie inzwischen tippen, bleibt hier erhalten und wird dann gesendet.',
    empty:
      'Legen Sie eine tote Karte auf die Werkbank und schreiben Sie auf, was bekannt ist: was für eine es ist, was sie hinter sich hat, was sie tut. Nach jeder Antwort steht da, worauf es deutet, welche Prüfung ihre Minuten wert ist und ob die Reparatur die Hitze lohnt. Nichts muss beantwortet werden; was fehlt, macht das Urteil nur weniger sicher.',
    emptyWay: [
      {
        name: 'Beschreiben',
        does: 'Klasse, Vorgeschichte und die Worte des Besitzers: eine Minute und die halbe Antwort.',
      },
      {
        name: 'Ansehen und messen',
        does: 'Zuerst ohne Strom: der Augenschein, dann jede Versorgung gegen Masse. Danach wird der Strom freigegeben.',
      },
      {
        name: 'Der nächsten Prüfung folgen',
        does: 'Es ist die, die für ihre Minuten am meisten bringt, und sie sagt, was jedes Ergebnis ändern würde.',
      },
      { name: 'Entscheiden', does: 'Ist keine Prüfung mehr ihre Minuten wert, wird das Urteil gestempelt, mit Preis.' },
    ],
    emptyKeys:
      'Auf der Tastatur: Ziffern antworten, `Enter` geht weiter, `Strg+Z` nimmt zurück, `H` zeigt, wie eine Prüfung sicher geht.',
    search: 'Suchen',
    sortBy: 'Ordnen nach',
    sorts: { changed: 'letzter Änderung', waiting: 'Wartezeit', stage: 'Fortschritt', title: 'Namen' },
    shelves: 'Welche Karten',
    inHand: (count) => `In Arbeit ${count}`,
    inArchive: (count) => `Archiv ${count}`,
    archive: 'Archivieren',
    unarchive: 'Zurücklegen',
    archivedNow: (card) => `${card} liegt jetzt im Archiv.`,
    backNow: (card) => `${card} liegt wieder auf der Werkbank.`,
    notArchived: (card) => `${card} bleibt, wo sie ist: der Server antwortet nicht.`,
    noneHere: 'Hier liegt keine Karte.',
    noneFound: (query) => `Keine Karte passt zu „${query}“.`,
    stages: {
      arrived: 'eben gekommen',
      described: 'beschrieben',
      'looked-over': 'angesehen',
      measured: 'gemessen',
      tested: 'geprüft',
      decided: 'entscheidungsreif',
      quoted: 'angeboten, wartet auf den Besitzer',
      'on-the-bench': 'in Arbeit',
      'worked-on': 'bearbeitet',
    },
    onTheBench: (step, of) => `in Arbeit: Schritt ${step} von ${of}`,
    onTheBenchDone: 'in Arbeit: läuft sie?',
    waiting: (days) => (days === 0 ? 'seit heute da' : days === 1 ? 'wartet seit 1 Tag' : `wartet seit ${days} Tagen`),
    waitsFor: 'Wartet auf',
    verdict: 'Urteil',
    changed: (when) => `geändert ${when}`,
    onDeviceOnly: 'nur auf diesem Gerät',
    nothingKnown: 'noch nichts bekannt',
    weighing: 'wird abgewogen …',
    contradicts: 'ihre Befunde widersprechen sich',
    unreadable: 'etwas daran lässt sich nicht lesen',
  },

  shop: {
    broken: 'Das Profil der Werkstatt lässt sich nicht lesen',
    brokenAbout:
      'Bis es richtiggestellt ist, beruhen alle Preise, Gewinnaussichten und die Liste der Geräte auf den erfundenen Zahlen, die dem Werkzeug beiliegen.',
    readAgain: 'Noch einmal lesen',
  },

  cases: {
    heading: 'Einen durchgearbeiteten Fall öffnen',
    about: 'Erfundene Karten, jede mit einer Lehre. Wer eine Antwort ändert, macht eine eigene Karte daraus.',
    showAll: (count) => `Alle ${count} Fälle zeigen`,
  },

  steps: {
    label: 'Schritte',
    names: {
      card: 'Karte',
      history: 'Vorgeschichte',
      symptoms: 'Symptome',
      looks: 'Augenschein',
      readings: 'Messwerte',
      tests: 'Einschalten',
      next: 'Was nun',
      verdict: 'Urteil',
      owner: 'Besitzerseite',
      work: 'Arbeit',
      'came-back': 'Zurückgekommen',
    },
    asks: {
      card: 'Welche Karte ist das, und was ist sie wert?',
      history: 'Was hat sie hinter sich?',
      symptoms: 'Was tut sie, nach den Worten des Besitzers?',
      looks: 'Was ist ohne Strom zu sehen?',
      readings: 'Was messen die Versorgungen?',
      tests: 'Was zeigen die Prüfungen?',
      next: 'Welche Prüfung ist ihre Minuten wert?',
      verdict: 'Lohnt die Hitze?',
      owner: 'Was bekommt der Besitzer zu lesen?',
      work: 'Was wird an ihr getan, in welcher Folge?',
      'came-back': 'Wie ging es ihr seit der Arbeit?',
    },
    answered: 'beantwortet',
    of: (count) => `von ${count}`,
    act: 'handeln',
    onTo: (step) => `Weiter zu: ${step}`,
  },

  card: {
    nameIt: 'Ein Name, unter dem Sie sie wiederfinden',
    nameAbout: 'Der Besitzer liest ihn auch: Er steht auf der Besitzerseite.',
    titleOfNew: (when) => `Karte vom ${when}`,
    worth: 'Was ist sie wert?',
    worthAbout: (shop) =>
      `Eine Zahl oder eine Spanne wie 120-180. Was leer bleibt, kommt aus dem Profil der Werkstatt, ${shop}.`,
  },

  questions: {
    yes: 'Ja',
    no: 'Nein',
    cannotTell: 'Nicht zu sagen',
    cannotTellAnswer: 'nicht zu sagen',
    notAsked: 'Nicht gefragt',
    notLookedAt: 'Nicht nachgesehen',
    noneOfThese: 'Nichts davon',
    uses: {
      label: 'Wirkt auf',
      more: (count) => `und ${count} weitere`,
      readings: 'die erwarteten Messwerte',
      safety: 'die Sicherheit der Arbeit',
      symptoms: 'die erwarteten Prüfergebnisse',
    },
    chooseAll: 'Alles Zutreffende wählen.',
    ownerTells: 'So, wie der Besitzer es erzählt. Was die Werkbank selbst sieht, gehört unter „Einschalten“.',
    notANumber: (typed) => `„${typed}“ ist keine Zahl.`,
    outside: (typed) => `${typed} liegt außerhalb dessen, was sein kann.`,
    typeANumber: (least, most, unit) => `Eine Zahl von ${least} bis ${most} tippen${unit ? ` (${unit})` : ''}.`,
  },

  amounts: {
    todo: 'Eine Zahl (150), eine Spanne (120-180) oder niedrig, wahrscheinlich und hoch (120 150 180) tippen.',
    empty: 'Hier steht keine Zahl.',
    belowZero: 'Ein Betrag kann nicht unter null liegen.',
    notAnAmount: (typed) => `„${typed}“ ist kein Betrag.`,
    tooMany: 'Das sind mehr als drei Zahlen.',
    falling: 'Die Zahlen dürfen von links nach rechts nicht fallen.',
    farApart: (typed) =>
      `${typed} ist mehr als das Zwanzigfache des Wahrscheinlichen: Sind zwei Zahlen zusammengelaufen?`,
  },

  howTo: {
    safely: 'So geht es sicher',
    of: (check) => `So geht es: ${check}`,
  },

  gates: {
    notWeighed: 'Strom gibt es erst, wenn die bisherigen Befunde abgewogen sind.',
    doneAlready: 'Das ist schon geschehen: aufschreiben, was zu sehen war',
  },

  tests: {
    next: 'als Nächstes',
    closed: 'geschlossen',
    worth: (money) => `bringt ${money}`,
    opensOthers: 'macht andere möglich',
    notWorthIt: 'ihre Minuten nicht wert',
    changesNothing: 'ändert nichts',
  },

  readings: {
    about:
      'So tippen, wie das Messgerät es zeigt: `0.31`, `310m`, `1k2`, `4R7`, `OL` für Überlauf. Zuerst der Widerstand, die Karte ohne Strom; eine heile Karte mit derselben Platine schlägt jede Faustregel. Eine Spalte aus einer Tabellenkalkulation lässt sich einfügen, auch mit Überschrift und den Namen der Versorgungen.',
    caption: 'Widerstand gegen Masse und Spannung jeder Versorgung',
    rail: 'Versorgung',
    toGround: 'Gegen Masse',
    knownGood: 'Heile Karte',
    says: 'Heißt',
    voltage: 'Spannung',
    resistanceOf: (rail) => `${rail}, Widerstand gegen Masse`,
    knownGoodOf: (rail) => `${rail}, Widerstand gegen Masse auf einer heilen Karte`,
    voltageOf: (rail) => `${rail}, Spannung`,
    resistanceInWords: (rail) => `${rail}, Widerstand in Worten`,
    voltageInWords: (rail) => `${rail}, Spannung in Worten`,
    byNumber: 'gemessen',
    stateByNumber: (state) => `${state}, gemessen`,
    takeOut: 'den Messwert herausnehmen',
    notMeasured: 'nicht gemessen',
    againstKnownGood: 'gegen die heile Karte',
    orType: 'Oder den Messwert tippen',
    knownGoodCard: 'Heile Karte',
    fitsNoState: 'passt zu keinem Zustand',
    leads: 'Messleitungen, Spitzen aneinander',
    leadsAbout: 'Wird von jedem Widerstand unten abgezogen. 0, wenn das Messgerät genullt war.',
    fourWire: 'Vierleiter',
    meter: 'Messgerät',
    usualMeter: (name) => (name === '' ? 'wie im Profil der Werkstatt' : `${name} (Profil der Werkstatt)`),
    otherMeter: (name) => (name === '' ? 'wie bei den Messwerten vermerkt' : `${name} (wie vermerkt)`),
    meterStates: (percent, digits) => `±(${percent} % + ${digits} Digits)`,
    normalRange: (from, to) =>
      from === null ? `normal bis ${to}` : to === null ? `normal ab ${from}` : `normal ${from} bis ${to}`,
    readsWithin: (value, spread) => (spread === null ? `misst ${value}` : `misst ${value} ± ${spread}`),
    overRange: 'Überlauf',
    pasted: (taken, unreadable, left) =>
      [
        `${taken} ${taken === 1 ? 'Wert' : 'Werte'} eingefügt`,
        ...(unreadable > 0
          ? [`${unreadable} noch nicht lesbar, ${unreadable === 1 ? 'wartet' : 'warten'} in der Tabelle`]
          : []),
        ...(left > 0 ? [`${left} ohne Platz in der Tabelle`] : []),
      ].join(', '),
    pastedHeading: (words) => `als Überschrift gelesen: „${words}“`,
    pastedByName: 'jede Zeile bei der Versorgung, die sie nennt',
    rails: {
      core: 'Kern',
      'core-second': 'Zweite Kernversorgung',
      memory: 'Speicher',
      'pcie-rail': 'PCIe-Versorgung',
      '1v8': '1,8 V',
      '3v3': '3,3 V',
      '5v': '5 V',
      '12v-slot': '12 V Steckplatz',
      '12v-input': '12 V Eingang',
      '12v-input-second': '12 V zweiter Eingang',
    },
  },

  later: {
    comes: 'Einen Augenblick …',
    failed:
      'Dieser Teil des Werkzeugs ließ sich nicht laden. Alles Getippte ist aufgehoben; neu laden, sobald der Server wieder antwortet.',
    reload: 'Neu laden',
  },

  offline: {
    newerReady: 'Eine neuere Fassung dieses Werkzeugs liegt bereit.',
    newerElsewhere: 'Ein anderes Fenster hat eine neuere Fassung geladen; in diesem läuft noch die vorige.',
    newerAbout: 'Alles Getippte ist aufgehoben.',
    loadNewer: 'Jetzt laden',
  },

  words: {
    never: 'nie',
    always: 'immer',
    lessThanOne: 'weniger als 1 von 100',
    nearlyAlways: 'fast immer',
    outOfHundred: (count) => `${count} von 100`,
    minutes: (count) => `${count} min`,
    hours: (count) => `${count} h`,
    days: (count) => (count === 1 ? '1 Tag' : `${count} Tage`),
    months: (count) => `${count} Monate`,
    neither: 'sagt weder das eine noch das andere',
    slightly: { for: 'spricht etwas dafür', against: 'spricht etwas dagegen' },
    speaks: { for: 'spricht dafür', against: 'spricht dagegen' },
    strongly: { for: 'spricht stark dafür', against: 'spricht stark dagegen' },
    proves: { for: 'beweist es so gut wie', against: 'schließt es so gut wie aus' },
    verdicts: {
      reflow: 'Reflow',
      reball: 'Neu bebällen',
      'component-swap': 'Bauteil tauschen',
      'core-swap': 'Kern tauschen',
      service: 'Warten',
      return: 'Zurückgeben: sie ist heil',
      scrap: 'Die Hitze lohnt nicht',
    },
    stamps: {
      reflow: 'Reflow',
      reball: 'Reball',
      'component-swap': 'Teiltausch',
      'core-swap': 'Kerntausch',
      service: 'Wartung',
      return: 'zurück',
      scrap: 'Schrott',
    },
    unknownTime: 'zu unbekannter Zeit',
    justNow: 'gerade eben',
    minutesAgo: (count) => `vor ${count} min`,
  },
};
