import { expect, it } from 'vitest';
import { comparedOfSecond, figuresOf } from './pairs.ts';

it('a copy cut by hand: no figure moves unseen', async () => {
  const comparison = await comparedOfSecond(75, {
    ...{ question: 'negativePositive', relation: 'handCopy', displacementUm: 150, shape: 'round' },
    ...{ lip: 'none', accidents: 'some', imageLeft: 0.95 },
  });
  await expect(figuresOf(comparison)).toMatchFileSnapshot('copy.txt');
});
