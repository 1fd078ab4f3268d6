/** What is wrong with a logger's file, in the language of the interface. */
import type { ProfileAnswer } from '../../knowledge/profile-answer.ts';
import { language } from '../language.ts';
import { logProblemsDe } from '../messages/log-problems-de.ts';
import { type LogProblemsSaid, logProblemsEn } from '../messages/log-problems-en.ts';

export type LogProblem = Extract<ProfileAnswer, { kind: 'unreadable' }>['problems'][number];

const CATALOGUES = { en: logProblemsEn, de: logProblemsDe };

type Sentences = { readonly wrong: string; readonly todo: string };

/** `lang`: of the sentences, where it is not that of the interface. */
export function sayLogProblem({ wrong, todo, told }: LogProblem): Sentences & { readonly lang: string | undefined } {
  const said = CATALOGUES[language.value];
  if (told === undefined || !(told.id in said))
    return { wrong: `${wrong}.`, todo, lang: language.value === 'en' ? undefined : 'en' };
  const say = said[told.id as keyof LogProblemsSaid] as (about: NonNullable<LogProblem['told']>['about']) => Sentences;
  return { ...say(told.about), lang: undefined };
}
