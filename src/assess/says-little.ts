/** When a range is too wide to tell anybody anything: one rule for the technician's screen and the owner's page. */

/** A range of a chance at least this wide leaves open whether a thing is so or not (this project's judgement). */
export const SAYS_LITTLE_FROM = 0.8;

/**
 * Such ranges come about where a chance hangs on a rare event that few have counted. A share of 1 in 100 that rests on a dozen cards is drawn
 * from Beta(0.12, 11.88), of which most lies next to nought. Where two such rarities compete for one finding (a bridge by the work,
 * a picture that shows one where there is none), each draw gives all to one of them, and the range of both is 0 to 1.
 */
export const saysLittle = ({ low, high }: { readonly low: number; readonly high: number }): boolean =>
  high - low >= SAYS_LITTLE_FROM;
