import { expect, it } from 'vitest';
import { comparedOfSecond, figuresOf } from './pairs.ts';

it('a matrix and an impression from before it was cut: no figure moves unseen', async () => {
  const comparison = await comparedOfSecond(71, {
    ...{ question: 'negativePositive', relation: 'state', shape: 'round' },
    ...{ lip: 'some', accidents: 'some', imageLeft: 0.9 },
  });
  await expect(figuresOf(comparison)).toMatchFileSnapshot('state.txt');
});
