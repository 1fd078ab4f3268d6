/** Made by the build (`src/bootstrap/rules-file.ts`). */
declare module 'virtual:rules' {
  /** what `rules/` holds, parsed and audited, and the shop profile beside it */
  export function readRules(): Promise<{
    readonly knowledge: import('../knowledge/packed.ts').PackedKnowledge;
    readonly shop: import('../shop/schema.ts').Shop;
  }>;
  /** null: the rules are not translated into it */
  export function readTranslation(language: string): Promise<import('../knowledge/translation.ts').Translation | null>;
}
