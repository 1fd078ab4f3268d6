import { describe, expect, it } from 'vitest';
import { checkMinutes } from '../../../src/wizard/card/check-minutes.ts';
import type { CheckView } from '../../../src/wizard/catalogue.ts';
import { sampleAssessment } from '../sample-assessment.ts';

const [advice] = sampleAssessment.checks;
const check = { id: advice!.check, minutes: 3 } as CheckView;

describe('The minutes of a check', () => {
  it('are the same wherever it is named: with what has to be set up first, as the next check counts them', () => {
    const coolerOn = { ...sampleAssessment, checks: [{ ...advice!, minutes: 13 }] };
    expect(checkMinutes(check, coolerOn)).toBe(13);
  });

  it('are its own where nothing has been weighed yet or it is not heard of', () => {
    expect(checkMinutes(check, null)).toBe(3);
    expect(checkMinutes(check, { ...sampleAssessment, checks: [] })).toBe(3);
  });
});
