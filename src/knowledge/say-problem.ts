import type { Problem } from './knowledge.ts';

/** A full path stands as it is; everything else lies under rules/. */
const FULL_PATH = /^(\/|[A-Za-z]:)/;

/** One line: file, line, path, what is wrong, what to do. */
export function sayProblem(problem: Problem): string {
  const file = FULL_PATH.test(problem.file) ? problem.file : `rules/${problem.file}`;
  const place = problem.line === undefined ? file : `${file}:${problem.line}`;
  return `${problem.path === '' ? place : `${place} at ${problem.path}`}: ${problem.wrong}. ${problem.todo}`;
}
