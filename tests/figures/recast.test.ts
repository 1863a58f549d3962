import { expect, it } from 'vitest';
import { comparedOfSecond, figuresOf } from './pairs.ts';

it('a matrix and one recast from its impression: no figure moves unseen', async () => {
  const comparison = await comparedOfSecond(74, {
    ...{ question: 'twoNegatives', relation: 'recast', shape: 'shield' },
    ...{ lip: 'none', accidents: 'some', imageLeft: 0.95 },
  });
  await expect(figuresOf(comparison)).toMatchFileSnapshot('recast.txt');
});
