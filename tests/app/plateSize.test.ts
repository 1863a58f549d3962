import { describe, expect, it } from 'vitest';
import { plateSize, sizeFault } from '../../src/app/read/light/plateSize.ts';

const outlines = [
  { widthMm: 40, heightMm: 62 },
  { widthMm: 20, heightMm: 20 },
];

describe('the size of a plate as it is typed', () => {
  it('is so many times natural size, or a height in millimetres or in dots of the resolution', () => {
    expect(plateSize({ value: '2', unit: 'times', dpi: '600' })).toEqual({ printScale: 2 });
    expect(plateSize({ value: '90', unit: 'mm', dpi: '600' })).toEqual({ heightMm: 90 });
    expect(plateSize({ value: '1500', unit: 'dots', dpi: '600' })).toEqual({ heightMm: 63.5 });
  });

  it('is refused in words where it is none, too small or large, or more than a page holds', () => {
    const fault = (value: string, dpi = '600', unit: 'times' | 'mm' | 'dots' = 'times') =>
      sizeFault({ value, unit, dpi }, outlines);
    expect(fault('1')).toBeNull();
    expect(fault('90', '600', 'mm')).toBeNull();
    for (const value of ['', 'large', '0', '51']) expect(fault(value)).toMatch(/0\.05 and 50 times/);
    expect(fault('1', '20')).toMatch(/between 50 and 2400/);
    // The tallest of them counts: 62 mm on 3,200 mm of paper.
    expect(fault('3200', '600', 'mm')).toMatch(/0\.05 and 50 times/);
    expect(fault('10')).toMatch(/more dots/);
  });
});
