import { expect, it } from 'vitest';
import { comparedOfSecond, figuresOf } from './pairs.ts';

it('an impression and its own cast, both with accidents: no figure moves unseen', async () => {
  const comparison = await comparedOfSecond(73, {
    ...{ question: 'twoPositives', relation: 'cast', shape: 'pointed' },
    ...{ lip: 'some', accidents: 'many', imageLeft: 0.8 },
  });
  await expect(figuresOf(comparison)).toMatchFileSnapshot('cast.txt');
});
