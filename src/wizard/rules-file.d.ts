/** Made by the build (`src/bootstrap/rules-file.ts`). */
declare module 'virtual:rules' {
  /** content of every file by its path under `rules/` */
  export function readRules(): Promise<{ readonly [path: string]: unknown }>;
}
