import type { Problem } from './knowledge.ts';

/** One line: file, path, what is wrong, what to do. */
export function sayProblem(problem: Problem): string {
  const where = problem.path === '' ? `rules/${problem.file}` : `rules/${problem.file} at ${problem.path}`;
  return `${where}: ${problem.wrong}. ${problem.todo}`;
}
