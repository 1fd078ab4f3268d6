import { z } from 'zod';

export const ID_PATTERN = /^[a-z0-9]+(-[a-z0-9]+)*$/;
/** Stable lower-case words joined by hyphens; the file bears its id. */
export const Id = z.string().regex(ID_PATTERN, 'ids are lower-case words joined by hyphens');
export type Id = z.infer<typeof Id>;
