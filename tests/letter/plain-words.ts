/** What counts as plain: the level a letter has to keep to, and the words that have no place in it. */

/** Grade 7 is about the seventh year of school; a reading ease of 70 and more is "fairly easy" on Flesch's own scale. */
export const HIGHEST_GRADE = 7;
export const LOWEST_EASE = 70;

/** What an owner need not know, whole words. Trade words first, then those of the tool itself. */
export const JARGON =
  /\b(BGA|GPU|VRM|MOSFETs?|PCIe|ICs?|SMD|ESR|EEPROM|BIOS|firmware|rails?|lanes?|bus|dies?|reballs?|reballing|reballed|reflows?|reflowing|underfill|bumps?|interposer|substrate|silicon|laminate|vias?|traces?|pads? lifted|non-wet|ball grid|regulators?|capacitors?|shunts?|straps?|oscillator|crystal|injection|scope|phases?|artifacts?|delta|throttles?|throttling|known-good|host|heat cycles?|ohms?|milliohms?|kilohms?|amperes?|dB|decibels?|posterior|prior|likelihood|Bayes\w*|EVSI|EVPI|odds|surplus|margin|break-even|horizon|parameter draws?|draws of|interval|percentile|sensitivity|calibrated|seed)\b/i;
