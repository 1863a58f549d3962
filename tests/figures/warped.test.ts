import { expect, it } from 'vitest';
import { comparedOfFirst, figuresOf } from './pairs.ts';

it('an impression worn and out of plane: no figure moves unseen', async () => {
  const comparison = await comparedOfFirst(63, 'same');
  await expect(figuresOf(comparison)).toMatchFileSnapshot('warped.txt');
});
