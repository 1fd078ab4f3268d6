/** K where nobody says otherwise: most faults a card is thought to have at once. */
export const DEFAULT_MAX_FAULTS = 3;
