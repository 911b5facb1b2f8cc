/** Sliders of the trial panel: which figures have one, how far it goes, and what it writes. */
import { describe, expect, test } from 'vitest';
import { sliderOf, writtenAt } from '../../client/trial/slider';

describe('a figure of one number', () => {
  test.each([
    ['45 W', 0, 90, 1, '60 W'],
    ['0.91 ± 0.02', 0, 1.91, 0.01, '60 ± 0.02'],
    ['-20 °C', -40, 0, 1, '60 °C'],
    ['6', 0, 12, 1, '60'],
    ['58 W ± 5 %', 0, 116, 1, '60 W ± 5 %'],
  ])('%s', (written, low, high, step, at60) => {
    const slider = sliderOf(written);
    expect(slider?.low).toBe(low);
    expect(slider?.high).toBeCloseTo(high);
    expect(slider?.step).toBeCloseTo(step);
    expect(slider && writtenAt(slider, 60)).toBe(at60);
  });

  test('its own value is written as it was', () => {
    for (const written of ['45 W', '0.91 ± 0.02', '-20 °C', '62 %']) {
      const slider = sliderOf(written);
      expect(slider && writtenAt(slider, slider.value)).toBe(written);
    }
  });
});

test.each(['4 W to 6 W', '4..6 W', 'IP66', '2026-10-02', 'yes', ''])('%s has no slider', (written) => {
  expect(sliderOf(written)).toBeNull();
});
