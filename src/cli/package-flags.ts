/** Flags that commands on heat share: the package's body, and the shop's own profile window. */
import type { Command } from './command.ts';

export const packageFlags = {
  thickness: { type: 'string', takes: 'mm', about: 'thickness of the package body' },
  volume: { type: 'string', takes: 'mm3', about: 'volume of the package body, without balls' },
  window: {
    type: 'string',
    takes: 'file',
    about: "the shop's own profile window (schema: `worth-the-heat schemas reflow-window`)",
  },
} as const satisfies Command['flags'];
