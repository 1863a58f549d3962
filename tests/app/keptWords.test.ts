import { describe, expect, it } from 'vitest';
import { keptWords } from '../../src/app/finding/Wear.tsx';

describe('what a zone has kept', () => {
  it('is not nought where it was not measured, or was saved as nothing', () => {
    for (const nothing of [null, Number.NaN]) {
      expect(keptWords(nothing, nothing)).toBe('–');
      expect(keptWords(0.62, nothing)).toMatch(/^62\s%$/);
    }
    expect(keptWords(0.62, 0.04)).toMatch(/^62\s% ± 4\s%$/);
  });
});
