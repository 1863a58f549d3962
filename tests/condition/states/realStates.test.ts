import { describe, expect, it } from 'vitest';
import { comparePrepared, preparePair } from '../../../src/core/pipeline.ts';
import { needing, realData } from '../../realData.ts';

// Pairs made by another program (truth.json beside each): what became of the matrix between the two is known. No order may be wrong.
const pairs = [
  ['two-impressions-one-matrix', ['cannotJudge', 'sameState'], 'nothing became of the matrix between them'],
  ['struck-through', ['cannotJudge', 'sameState'], 'it was cut before both'],
  ['two-impressions-cut-between', ['cannotJudge', 'subjectLater'], 'it was cut between them'],
] as const;

describe.each(pairs)('the states of %s', (pair, right, truth) => {
  const file = `pairs/${pair}/subject.ply`;
  it.skipIf(!realData(file))(
    needing(file, `are ordered as they were, or not at all: ${truth}`),
    async () => {
      const scan = (name: string) => ({
        name,
        bytes: realData(`pairs/${pair}/${name}`) as Uint8Array,
        unit: 'mm' as const,
      });
      const { judgement } = comparePrepared(...(await preparePair(scan('reference.ply'), scan('subject.ply'))));
      expect(right).toContain(judgement.state.reading);
    },
    180_000,
  );
});
