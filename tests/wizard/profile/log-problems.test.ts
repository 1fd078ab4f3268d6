/** What is wrong with a logger's file, said in the language of whoever chose it. */
import { afterEach, describe, expect, it } from 'vitest';
import { LOG_PROBLEMS, type LogProblemId } from '../../../src/joints/log-problems.ts';
import { readThermocoupleLog } from '../../../src/joints/thermocouple-log.ts';
import { preferLanguage } from '../../../src/wizard/language.ts';
import { logProblemsDe } from '../../../src/wizard/messages/log-problems-de.ts';
import { logProblemsEn } from '../../../src/wizard/messages/log-problems-en.ts';
import { sayLogProblem } from '../../../src/wizard/profile/say-log-problem.ts';

const speak = (language: string) => preferLanguage({ getItem: () => language }, [], { lang: '' });
afterEach(() => speak('en'));

/** Things a problem may be about, each to be found again in its sentences. */
const ABOUT = Object.fromEntries(
  ['text', 'from', 'to', 'channel', 'channels', 'first', 'columns', 'cells', 'lines', 'read'].map((slot) => [
    slot,
    `<${slot}>`,
  ]),
);
const marksOf = (said: { wrong: string; todo: string }) =>
  [...new Set(`${said.wrong} ${said.todo}`.match(/<\w+>/g) ?? [])].sort();

describe('What is wrong with a thermocouple log', () => {
  it('is said in German of the same things as in English, in other words, and for the wizard without flags', () => {
    expect(Object.keys(logProblemsEn).sort()).toEqual(Object.keys(LOG_PROBLEMS).sort());
    expect(Object.keys(logProblemsDe).sort()).toEqual(Object.keys(LOG_PROBLEMS).sort());
    for (const id of Object.keys(LOG_PROBLEMS) as LogProblemId[]) {
      const [plain, english, german] = [LOG_PROBLEMS, logProblemsEn, logProblemsDe].map((said) =>
        (said[id] as (about: object) => { wrong: string; todo: string })(ABOUT),
      );
      expect(marksOf(english!), id).toEqual(marksOf(plain!));
      expect(marksOf(german!), id).toEqual(marksOf(plain!));
      for (const sentence of [english!.wrong, english!.todo, german!.wrong, german!.todo]) {
        expect(sentence, id).toMatch(/^[A-ZÄÖÜ„"<].*\.$/);
        expect(sentence, id).not.toContain('--');
      }
      expect(`${german!.wrong} ${german!.todo}`, id).not.toMatch(/\b(the|and|with|not|line|reading|export)\b/i);
    }
  });

  it.each([
    ['', 'Die Datei ist leer.'],
    ['no readings here\n', 'Keine Zeile enthält Messwerte: Die erste lautet „no readings here“.'],
    ['time,TC1\n0,21\n1,25.x\n2,27\n3,30\n', '„25.x“ in „TC1“ ist keine Temperatur.'],
    ['time,TC1 (C)\n0,21\n1,25\n2,27,30\n3,30\n', 'Die Zeile hat 3 Felder, die anderen haben 2.'],
  ])('%j is refused in German to whoever reads German', async (text, wrong) => {
    const log = await readThermocoupleLog(text, { unit: 'C' });
    const problem = log.problems[0]!;
    await speak('de');
    expect(sayLogProblem({ ...problem, told: { ...problem.told } })).toMatchObject({ wrong, lang: undefined });
  });

  it('stands in English, and marked so, where nothing says which problem it is', async () => {
    await speak('de');
    const said = sayLogProblem({ line: 3, column: null, wrong: 'the line is odd', todo: 'Look at it.' });
    expect(said).toEqual({ wrong: 'the line is odd.', todo: 'Look at it.', lang: 'en' });
  });
});
