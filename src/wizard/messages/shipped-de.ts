import { SHIPPED_NAME } from '../../shop/shipped-name.ts';
import type { shippedEn } from './shipped-en.ts';

export const shippedDe: typeof shippedEn = {
  profile: SHIPPED_NAME.de,
  'hand-meter': 'Handmultimeter, 6000 Digits',
  'hand-meter-resistance': 'Handmultimeter, 6000 Digits, kleinster Bereich 60 Ohm',
  'supply-display': 'Anzeige des Labornetzteils',
  'temperature-sensor': 'Sensor der Karte oder Wärmebildkamera',
  picture: 'aus einem Bild abgelesen',
  calculated: 'berechnet',
  'bench-meter': 'Tischmultimeter, 50 000 Digits',
  'bench-meter-resistance': 'Tischmultimeter, 50 000 Digits, kleinster Bereich 500 Ohm',
  'milliohm-meter': 'Milliohmmeter, Vierleiter',
  'milliohm-meter-resistance': 'Milliohmmeter, Vierleiter',
};
