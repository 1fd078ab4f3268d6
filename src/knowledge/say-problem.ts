import type { Problem } from './knowledge.ts';

/** A full path stands as it is; everything else lies under rules/. */
const FULL_PATH = /^(\/|[A-Za-z]:)/;

/** One line: file, path, what is wrong, what to do. */
export function sayProblem(problem: Problem): string {
  const file = FULL_PATH.test(problem.file) ? problem.file : `rules/${problem.file}`;
  return `${problem.path === '' ? file : `${file} at ${problem.path}`}: ${problem.wrong}. ${problem.todo}`;
}
