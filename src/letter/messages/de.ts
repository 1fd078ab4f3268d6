/** Die Seite für den Besitzer auf Deutsch: dieselben Schlüssel wie im Englischen. */
import type { Messages } from './en.ts';

export const de: Messages = {
  count: {
    ofHundred: (count) => `${count} von 100`,
    fewerThanOne: 'weniger als 1 von 100',
    moreThan99: 'mehr als 99 von 100',
  },

  days: (days) =>
    days % 365 === 0
      ? days === 365
        ? 'einem Jahr'
        : `${days / 365} Jahren`
      : days % 30 === 0 && days > 90
        ? `${days / 30} Monaten`
        : `${days} Tagen`,

  page: {
    kind: 'Befund und Angebot für Ihre Grafikkarte',
    kindOwnStock: 'Befund einer eigenen Karte',
    kindAgain: 'Warum Ihre Karte wieder ausfiel, und was wir raten',
    kindFailed: 'Warum die Reparatur misslang, und was wir raten',
    card: 'Karte',
    number: 'Auftrag',
    date: 'Datum',
    validUntil: 'Gültig bis',
    invented: 'Erfundenes Beispiel: keine echte Karte, kein echter Besitzer, kein echter Preis.',
    inventedMark: 'Erfundenes Beispiel',
    basis: (knowledge) => `Damit sich diese Seite später nachprüfen lässt: gerechnet nach Regelbuch ${knowledge}.`,
    languageNote: (language) =>
      `Befunde, Ursachen, Arbeiten und Hinweise stehen hier${language === 'en' ? ' auf Englisch' : ''}, wie sie in den Regeln der Werkstatt stehen.`,
  },

  headings: {
    advice: 'Unser Rat',
    cameIn: 'Womit die Karte kam',
    afterWork: 'Was zuvor getan wurde',
    whyAgain: 'Warum sie wieder ausfiel',
    whyFailed: 'Warum die Reparatur misslang',
    found: 'Was wir fanden',
    likely: 'Was wohl defekt ist',
    likelyElsewhere: 'Wo man als Nächstes sucht',
    picture: 'Wo auf der Karte',
    next: 'Der nächste Schritt',
    choices: 'Ihre Möglichkeiten',
    choicesOwnStock: 'Die Möglichkeiten',
    choicesNow: 'Ihre Möglichkeiten, wie es heute aussieht',
    why: 'Warum wir dazu raten',
    changes: 'Was unseren Rat ändern würde',
    ruledOut: 'Was wir nicht anbieten, und warum',
    rests: 'Worauf das beruht',
    cautions: 'Bitte beachten',
    consent: 'Ihre Entscheidung',
    consentOwnStock: 'Für unsere Akten',
  },

  columns: {
    choice: 'Möglichkeit',
    price: 'Preis',
    works: 'Läuft wieder',
    holds: (after) => `Läuft noch nach ${after}`,
    ifItFails: 'Wenn es misslingt',
    advised: 'Dazu raten wir',
    bestToday: 'Heute am besten',
    notWorthIt: 'Den Preis nicht wert',
  },

  titles: {
    repair: 'Die Reparatur lohnt sich',
    leave: 'Eine Reparatur lohnt sich nicht',
    return: 'Wir fanden keinen Fehler an der Karte',
    'check-first': 'Wir möchten erst weiter suchen',
    contradiction: 'Wir müssen noch einmal nachsehen',
  },
  titleReturnUnsure: 'Vermutlich ist die Karte in Ordnung',
  titlesAgain: { repair: 'Eine weitere Reparatur lohnt sich', leave: 'Eine weitere Reparatur lohnt sich nicht' },
  titleWorks: 'Die Karte läuft: es ist nichts zu tun',
  titleClose: 'Die Reparatur lohnt sich nur knapp',

  lead: {
    repair: (works, holds, after) =>
      `Von 100 solchen Karten laufen nach der Reparatur ${works} wieder. ${holds} laufen auch nach ${after} noch.`,
    price: (price) => `Ihr Preis ist ${price}. Sie zahlen ihn nur, wenn die Karte bei der Rückgabe läuft.`,
    close: 'Es steht auf der Kippe: unten steht, wie sicher wir sind.',
    leave: 'Wir haben nach einer Reparatur gesucht, die Ihr Geld wert ist. Für diese Karte gibt es keine.',
    leaveOwnStock: 'Wir haben nach einer Reparatur gesucht, die ihre Kosten wert ist. Für diese Karte gibt es keine.',
    bestRepair: (works) => `Die beste Reparatur, die wir kennen, gelänge bei ${works} solchen Karten.`,
    noRepair: 'Für das, was diese Karte wohl hat, kennen wir keine Reparatur.',
    repairWaits:
      'Die Reparatur, die helfen könnte, braucht erst weitere Prüfungen. Bei dieser Karte würden sie mehr kosten, als sie bringen.',
    return: (works) =>
      `Von 100 Karten mit diesen Anzeichen sind ${works} in Ordnung. Die Ursache liegt dann im Rechner um die Karte herum.`,
    works: 'Soweit wir wissen, läuft die Karte seit der Reparatur. Es ist nichts zu tun und nichts zu zahlen.',
    checkFirst: 'Wir wissen noch nicht genug, um Ihnen gut zu raten. Ein weiterer Schritt kann das ändern.',
    contradiction:
      'Zwei Dinge, die wir über diese Karte notiert haben, können nicht beide stimmen. Eines davon muss falsch sein.',
    contradictionThen:
      'Wir messen noch einmal, bevor wir zu etwas raten. Das kostet Sie nichts, und zu entscheiden ist noch nichts.',
    stands: (what) => `Müssten wir heute entscheiden, wäre unser Rat: ${what}.`,
  },

  cameIn: {
    nothing: 'Wie es dazu kam, wissen wir noch nicht.',
    told: (words) => `Sie sagten uns: ${words}.`,
    tests: (words) => `Was Sie sahen: ${words}.`,
    age: (years) => `Die Karte ist etwa ${years} alt.`,
    years: (count, text) => (count === 1 ? 'ein Jahr' : `${text} Jahre`),
    known: (words) => `Wir wissen auch: ${words}.`,
    arrived: (date) => `Sie kam am ${date} zu uns.`,
    cameBack: (date) => `Zurück kam sie am ${date}.`,
  },

  facts: {
    'owner-words': {
      'no-display': 'kein Bild',
      artifacts: 'falsche Farben, Blöcke oder Streifen',
      'driver-crash': 'der Treiber stürzt ab',
      'heat-dropout': 'sie fällt aus, wenn sie warm ist',
      'shuts-pc-down': 'sie schaltet den Rechner ab',
      'smell-or-smoke': 'Geruch oder Rauch',
      'not-detected': 'der Rechner sieht sie nicht',
      'fans-full-speed': 'die Lüfter laufen auf voller Drehzahl',
      'noise-from-fans': 'Geräusche von den Lüftern',
      'black-screen-under-load': 'der Schirm wird schwarz, wenn sie viel leistet',
    },
    'onset-manner': {
      sudden: 'es begann plötzlich',
      gradual: 'es begann nach und nach',
      'after-transport': 'es begann nach einem Umzug oder der Post',
      'after-power-event': 'es begann nach einer Überspannung oder einem Stromausfall',
      'after-update': 'es begann nach einem Update',
    },
    'earlier-heat-work': {
      none: null,
      reflow: 'der Hauptchip wurde schon erhitzt',
      reball: 'der Hauptchip wurde schon neu gelötet',
      'oven-or-heat-gun': 'sie war im Ofen oder unter einem Heißluftföhn',
      'kind-unknown': 'sie wurde schon erhitzt',
    },
    mined: { true: 'sie lief monatelang unter Last', false: null },
    overclocked: { true: 'sie lief über ihren Grenzen', false: null },
    dusty: { true: 'sie war dick verstaubt', false: null },
    knocked: { true: 'sie ist gefallen oder angestoßen', false: null },
    sagged: { true: 'sie hing ohne Stütze im Steckplatz', false: null },
    liquid: { true: 'Flüssigkeit kam an sie', false: null },
    'stored-damp': { true: 'sie lag feucht', false: null },
    'other-repair': { true: 'andere Teile wurden schon repariert', false: null },
    'cooler-opened': { true: 'der Kühler war schon einmal ab', false: null },
    'new-host-part': { true: 'der Rechner bekam kurz davor ein neues Teil', false: null },
    'firmware-changed': { true: 'ihre eingebaute Software wurde geändert', false: null },
    'works-elsewhere': {
      true: 'sie lief in einem anderen Rechner',
      false: 'sie lief auch in einem anderen Rechner nicht',
    },
  },

  afterWork: {
    done: 'Unsere letzte Arbeit',
    doneOn: (date) => `Unsere letzte Arbeit, am ${date}`,
    cameBackOften: (times, text, days) =>
      `Sie kam ${times === 2 ? 'zweimal' : `${text}-mal`} zurück${days === null ? '' : `: am ${days}`}.`,
    asItWas: 'Dazwischen ging sie hinaus, wie sie war. Darum halten wir es für denselben Fehler.',
    failedAgain: (days, text) =>
      days < 1
        ? 'Die Karte fiel am selben Tag wieder aus.'
        : days === 1
          ? 'Die Karte lief einen Tag und fiel wieder aus.'
          : `Die Karte lief ${text} Tage und fiel wieder aus.`,
    failedAgainUnknown: 'Die Karte fiel wieder aus. Wir wissen nicht, nach wie langer Zeit.',
    neverWorked: 'Die Karte lief danach nicht.',
    works: 'Soweit wir wissen, läuft die Karte seitdem.',
    warranty: (days) => `Das liegt in den ${days} Garantie: Sie bekommen Ihr Geld für diese Reparatur zurück.`,
    afterWarranty: (days) => `Das liegt nach den ${days} Garantie.`,
    warrantyAgain: (days) =>
      `Das liegt in den ${days} Garantie: Sie können Ihr Geld zurückhaben. Wir raten, es uns ohne neuen Preis noch einmal versuchen zu lassen.`,
    paid: (price) => `Sie haben dafür ${price} gezahlt.`,
    paidPast: (price) => `Sie haben dafür ${price} gezahlt. Das ist vorbei, unser Rat sieht auf das, was kommt.`,
    nothingPaid: 'Für diese Reparatur zahlen Sie nichts.',
    plainly: {
      'wrong-thing': 'Vermutlich haben wir den falschen Fehler behandelt. Das war unser Versehen, und es tut uns leid.',
      'did-not-take': 'Vermutlich hat unsere Reparatur nicht gegriffen. Das tut uns leid.',
      relapsed:
        'Hitze kann ein kaputtes Teil eine Weile wecken. Dass die Karte nach unserer Reparatur lief, war also kein Beweis. Der alte Fehler war vermutlich noch da.',
      damaged: 'Vermutlich hat unsere eigene Reparatur das angerichtet. Es ist unsere Schuld, und es tut uns leid.',
      'new-fault': 'Vermutlich hielt unsere Reparatur, und ein anderes Teil ist seitdem ausgefallen.',
    },
    mayBeOurs: 'Wir können nicht ausschließen, dass unsere eigene Reparatur geschadet hat.',
    again: (works, holds, after) =>
      `Dieselbe Reparatur noch einmal würde bei ${works} solchen Karten gelingen, und ${holds} liefen nach ${after} noch.`,
    againNot: 'Wir raten davon ab.',
    againHarm: (count) => `In ${count} solchen Fällen würde die neue Hitze selbst schaden.`,
    againClosed: 'Dieselbe Reparatur würden wir nicht noch einmal machen.',
    reasons: {
      'wrong-thing': (count) => `In ${count} solchen Fällen war der wahre Fehler ein anderer, als wir behandelt haben.`,
      'did-not-take': (count) => `In ${count} solchen Fällen hat die Reparatur nicht gegriffen.`,
      relapsed: (count) => `In ${count} solchen Fällen war der alte Fehler eine Weile fort und ist wieder da.`,
      damaged: (count) => `In ${count} solchen Fällen hat die Reparatur selbst geschadet.`,
      'new-fault': (count) => `In ${count} solchen Fällen ist etwas Neues ausgefallen.`,
    },
  },

  found: {
    nothingSince: 'Wir haben sie noch nicht wieder geprüft.',
    nothing: 'Wir haben noch nichts geprüft.',
    others: (count) =>
      count === 1 ? 'Eine weitere Prüfung war unauffällig.' : `${count} weitere Prüfungen waren unauffällig.`,
    allNormal: (count) => (count === 1 ? 'Eine Prüfung: unauffällig.' : `${count} Prüfungen: alle unauffällig.`),
    unusual: 'auffällig',
  },

  sure: {
    certain: 'Fast sicher',
    very: 'Sehr wahrscheinlich',
    likely: 'Wahrscheinlich',
    possible: 'Möglich',
    slight: 'Weniger wahrscheinlich',
  },
  cause: {
    range: (low, high) => `${low} bis ${high}`,
    sound: (count) => `Die Karte ist in Ordnung: ${count}.`,
    several: 'Eine Karte kann mehrere Fehler haben, darum kann die Summe über 100 liegen.',
    noneStandsOut: 'Keine Ursache sticht heraus: viele sind möglich.',
    about: (count) => `etwa ${count}`,
    littleKnown: 'über diese Zahl ist wenig bekannt',
    littleKnownWhy:
      'Wo über eine Zahl wenig bekannt ist, beruht sie auf Dingen, die kaum jemand gezählt hat. Die Wahrheit kann weit daneben liegen.',
  },

  price: {
    nothing: 'nichts',
    nothingNew: 'nichts Neues',
    ownStock: 'kein Preis: eigene Karte',
    noneFits: (needed, worth) => `müsste ${needed} kosten, Ihnen ${worth} wert`,
    noneFitsAtAll: (needed) => `müsste ${needed} kosten, Ihnen nichts wert`,
  },
  ifItFails: {
    noFee: 'Sie zahlen nichts.',
    fee: (fee) => `Sie zahlen ${fee} für unsere Arbeit.`,
    return: 'Bringen Sie sie wieder: wir sehen noch einmal nach.',
    leave: 'Sie bleibt defekt.',
    ownStock: 'Die Arbeit ist verloren.',
  },
  fails: {
    noFee: 'Läuft die Karte bei der Rückgabe nicht, zahlen Sie nichts.',
    fee: (fee) => `Läuft die Karte bei der Rückgabe nicht, zahlen Sie nur ${fee} für unsere Arbeit.`,
    warranty: (days) => `Fällt sie innerhalb von ${days} wieder aus, bekommen Sie Ihr Geld zurück.`,
    noWarranty: 'Fällt sie später wieder aus, bekommen Sie kein Geld zurück.',
    later: 'Danach nicht mehr.',
  },
  note: { waits: 'Erst kommen andere Prüfungen.', heldOffer: 'wenn es dabei bleibt' },

  kinds: {
    reflow: 'den Hauptchip an Ort und Stelle erhitzen',
    reball: 'neue Lötstellen unter dem Hauptchip',
    'component-swap': 'das defekte Teil tauschen',
    'core-swap': 'den Hauptchip tauschen',
    service: 'eine Wartung der Karte',
    return: 'Rückgabe ohne Befund',
    scrap: 'keine Reparatur',
  },

  outOf100: {
    titleAdvised: 'Was die Reparatur bei 100 solchen Karten bewirkt',
    titleBest: 'Was die beste Reparatur bei 100 solchen Karten bewirken würde',
    titleReturn: '100 Karten mit diesen Anzeichen',
    holds: (count, after) => `${count} laufen, auch nach ${after} noch`,
    failsAgain: (count, after) => `${count} laufen, fallen aber binnen ${after} wieder aus`,
    fails: (count) => `${count} laufen nicht`,
    sentence: (holds, failsAgain, fails, after) =>
      `Von 100 solchen Karten laufen ${holds} und laufen auch nach ${after} noch, ${failsAgain} laufen und fallen wieder aus, und ${fails} laufen nicht.`,
  },

  why: {
    gain: (gain) => `Im Mittel stehen Sie zu diesem Preis mit der Reparatur um ${gain} besser da als ohne.`,
    even: 'Zu diesem Preis stehen Sie mit der Reparatur nicht besser da als ohne.',
    worse: (loss) => `Im Mittel stehen Sie zu diesem Preis mit der Reparatur um ${loss} schlechter da als ohne.`,
    only: 'Keine andere Reparatur, die wir machen könnten, ist ihren Preis wert.',
    best: 'Auch andere Reparaturen würden sich lohnen. Diese bringt uns beiden am meisten.',
    bestOwnStock: 'Auch andere Reparaturen würden sich lohnen. Diese bringt am meisten.',
    leaving: 'Nichts zu tun kostet nichts, aber die Karte bleibt defekt.',
    gap: (needed, worth) =>
      `Damit unsere Kosten gedeckt sind, müsste diese Reparatur ${needed} kosten. Ihnen ist sie höchstens ${worth} wert.`,
    gapAtAll: (needed) =>
      `Damit unsere Kosten gedeckt sind, müsste diese Reparatur ${needed} kosten. Ihnen ist sie nichts wert, denn sie misslingt zu oft.`,
    noRepair: 'Keine Reparatur, die wir machen können, hilft oft genug gegen das, was wohl defekt ist.',
    honest: 'Das sagen wir Ihnen lieber, als Ihnen eine Reparatur zu verkaufen, die wohl mehr kostet, als sie bringt.',
    returnHarm: 'Arbeit an einer gesunden Karte kostet Geld und kann schaden.',
    returnLook: (causes) => `Bitte sehen Sie zuerst hier nach: ${causes}.`,
    ownStock: (cost, gain) =>
      `Im Mittel kostet uns die Arbeit ${cost}, und wir stehen um ${gain} besser da als ohne sie.`,
    ownStockGap: (cost) => `Diese Reparatur würde uns im Mittel ${cost} kosten. Das bringt sie nicht ein.`,
    contradiction: (finding, others) => `Dies passt nicht: ${finding}. Es geht nicht zusammen mit: ${others}.`,
    contradictionOfWork:
      'Was an der Karte zu sehen war, passt nicht zu dem, was über die Arbeit an ihr aufgeschrieben ist.',
    contradictionAlone: (finding) => `Dies passt zu keinem Fehler, den wir kennen: ${finding}.`,
    checkWorth: (worth) => `Im Mittel bringt dieser Schritt ${worth} mehr, als er kostet.`,
    checkEven: 'Im Mittel bringt dieser Schritt etwas mehr, als er kostet.',
    checkOpens: 'Allein entscheidet dieser Schritt selten. Er macht weitere Prüfungen sicher.',
    checkOpensWorth: (worth) => `Mit ihnen bringt er ${worth} mehr, als er kostet.`,
    firm: (stands) => `Wir haben viele andere Schätzungen durchgespielt. Der Rat blieb in ${stands} Versuchen gleich.`,
    firmToday: (stands) =>
      `Wir haben viele andere Schätzungen durchgespielt. Was wir heute raten würden, blieb in ${stands} Versuchen gleich.`,
  },

  changes: {
    value: (side, at, now, becomes) =>
      `Wäre eine laufende Karte ${side === 'more' ? 'mehr' : 'weniger'} als ${at} wert, wäre unser Rat: ${becomes}. Wir nahmen ${now} an.`,
    chance: (side, at, now, becomes) =>
      `Gelänge es bei ${side === 'more' ? 'mehr' : 'weniger'} als ${at} Karten, wäre unser Rat: ${becomes}. Wir erwarten ${now}.`,
    sound: (side, at, now, becomes) =>
      `Wären ${side === 'more' ? 'mehr' : 'weniger'} als ${at} solchen Karten in Ordnung, wäre unser Rat: ${becomes}. Wir erwarten ${now}.`,
    ceiling: (at) => `Über einem Preis von ${at} stünden Sie ohne Reparatur besser da.`,
    gap: (needed, worth) => `Könnten Sie ${needed} zahlen, könnten wir es tun. Ihnen ist es ${worth} wert.`,
    parts: (side, at, now, becomes) =>
      `Kosteten die Teile ${side === 'more' ? 'mehr' : 'weniger'} als ${at}, wäre unser Rat: ${becomes}. Wir erwarten ${now}.`,
    minutes: (side, at, now, becomes) =>
      `Dauerte die Arbeit ${side === 'more' ? 'länger' : 'kürzer'} als ${at}, wäre unser Rat: ${becomes}. Wir erwarten ${now}.`,
    minutesTold: (minutes) => `${minutes} Minuten`,
    hoursTold: (hours) => `${hours} Stunden`,
    nothing: 'Nichts, was uns in vernünftigen Grenzen einfiele.',
    firstTheStep: 'Zuerst das, was der nächste Schritt zeigt.',
  },

  ruledOut: { shop: 'Für manche Reparaturen fehlt uns ein Werkzeug oder ein Teilepreis.' },

  next: {
    takesCheaply: (minutes) => `Er dauert etwa ${minutes} Minuten und kostet uns so gut wie nichts.`,
    takes: (minutes, cost) => `Er dauert etwa ${minutes} Minuten und kostet uns ${cost}.`,
    free: 'Sie zahlen dafür nichts.',
    fee: (fee) =>
      `Er gehört zu unserer Arbeit. Gelingt die Reparatur nach einem Versuch nicht, zahlen Sie insgesamt ${fee}.`,
    ownStock: 'Es ist unsere eigene Karte, die Kosten tragen wir.',
    leadsTo: (count, what) => `In ${count} Fällen wäre unser Rat dann: ${what}.`,
    same: (count, what) => `In ${count} Fällen bliebe unser Rat: ${what}.`,
    rest: (count) => `In den übrigen ${count} Fällen zeigt sich etwas Selteneres, und unser Rat kann sich ändern.`,
    after: 'Danach schreiben wir Ihnen wieder.',
  },

  rests: {
    estimate:
      'Die Zahlen sind Schätzungen. Sie kommen aus dem, was Werkstätten oft sehen, und aus veröffentlichten Werten. Sie sind kein Versprechen.',
    range: (lowWorks, highWorks, lowHolds, highHolds) =>
      `Die wahre Zahl derer, die laufen, kann von ${lowWorks} bis ${highWorks} reichen, die Zahl derer, die halten, von ${lowHolds} bis ${highHolds}.`,
    rangeSaysLittle: 'Wie oft das gelingt, ist wenig bekannt. Die wahre Zahl kann weit daneben liegen.',
    rangeHolds: (low, high) => `Die wahre Zahl derer, die halten, kann zwischen ${low} und ${high} liegen.`,
    values: (working, asIs) =>
      `Eine laufende Karte wie diese haben wir mit ${working} angesetzt, und mit ${asIs}, wie sie jetzt ist. Sagen Sie uns, wenn das nicht stimmt.`,
    law: 'Ihre Rechte nach dem Gesetz bleiben, wie sie sind.',
  },

  consent: {
    repair: 'Bitte eines ankreuzen und unterschreiben.',
    repairBox: (price) => `Bitte die empfohlene Reparatur für ${price}, zu zahlen nur, wenn die Karte läuft.`,
    repairAgainBox: 'Bitte versuchen Sie die Reparatur ohne neuen Preis noch einmal.',
    moneyBackBox: 'Bitte geben Sie mir mein Geld zurück, und die Karte, wie sie ist.',
    repairAnywayBox: (price) =>
      `Ich weiß, dass es sich nicht lohnt. Bitte die Reparatur trotzdem versuchen, für ${price}, wenn die Karte läuft.`,
    giveBackBox: 'Bitte die Karte so zurückgeben, wie sie ist.',
    partsBox: 'Sie dürfen die Karte für Teile oder zum Verwerten behalten.',
    checkBox: 'Bitte den nächsten Schritt tun und mir wieder schreiben.',
    returned: 'Ich habe die Karte zurückbekommen.',
    nothing: 'Es gibt noch nichts zu unterschreiben.',
    nothingToDo: 'Es gibt nichts zu entscheiden und nichts zu unterschreiben.',
    ownStock: 'Das ist unsere eigene Karte. Es gibt keinen Preis, und niemand von außen muss unterschreiben.',
    date: 'Datum',
    signature: 'Unterschrift',
    phone: 'Fragen? Bitte fragen Sie, bevor Sie unterschreiben.',
  },

  warnings: {
    below: (price, floor, loss) =>
      `Bei ${price} verliert die Werkstatt. Kosten, Risiko und Marge brauchen ${floor}. Im Mittel fehlen ihr ${loss}, denn der Preis wird nur gezahlt, wenn die Karte läuft und durch die Garantie hindurch weiter läuft.`,
    above: (price, ceiling, loss) =>
      `Bei ${price} verliert der Besitzer. Ihm ist die Reparatur höchstens ${ceiling} wert. Im Mittel steht er um ${loss} schlechter da als ohne Reparatur.`,
    noBand: (floor, ceiling) =>
      `Kein Preis passt beiden: die Werkstatt braucht ${floor}, dem Besitzer ist die Reparatur ${ceiling} wert.`,
    ownStock: (price) => `Die Karte gehört der Werkstatt: der Preis von ${price} wird nicht gebraucht.`,
    nothingSold: (price) => `Hier wird nichts verkauft: der Preis von ${price} wird nicht gebraucht.`,
  },

  sites: {
    'core-joints': 'Lötstellen unter dem Hauptchip',
    'core-package': 'Hauptchip',
    board: 'Leiterplatte',
    power: 'Stromversorgung der Karte',
    memory: 'Speicher',
    firmware: 'eingebaute Software',
    cooling: 'Kühler und Lüfter',
    'earlier-rework': 'frühere Reparaturen',
    connectors: 'Stecker und Buchsen',
    host: 'der Rechner um die Karte',
  },

  drawing: {
    title: 'Wo der Fehler wohl sitzt',
    place: (name, count) => `${name}: ${count}`,
    darker: 'Je dunkler, desto wahrscheinlicher.',
    brackets: 'In Klammern: wie weit wir danebenliegen können.',
  },
};
