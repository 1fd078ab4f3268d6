import { SHIPPED_NAME } from '../../shop/shipped-name.ts';

/** Names in the shop profile as it is shipped, by what they name. A name the shop has written itself is in none of these. */
export const shippedEn = {
  profile: SHIPPED_NAME.en as string,
  'hand-meter': '6000-count hand meter',
  'hand-meter-resistance': '6000-count hand meter, lowest range 60 ohm',
  'supply-display': 'display of the bench supply',
  'temperature-sensor': 'sensor of the card or thermal camera',
  picture: 'read from a picture',
  calculated: 'calculated',
  'bench-meter': '50 000-count bench meter',
  'bench-meter-resistance': '50 000-count bench meter, lowest range 500 ohm',
  'milliohm-meter': 'Milliohm meter, four-wire',
  'milliohm-meter-resistance': 'milliohm meter, four-wire',
};
