import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { groupObjects, type Link } from '../../src/core/collection/index.ts';

/** All pairs of forty real impressions of ten slides as they were scored once; source: docs/judge.md. */
function breech() {
  const [, ...lines] = readFileSync('tests/bench/rows/breech.csv', 'utf8').trim().split('\n');
  const slides = new Map<string, string>();
  const links = lines.map((line): Link => {
    const [a, b, slideA, slideB, , , , , score, , , finding] = line.split(',');
    slides.set(a, slideA).set(b, slideB);
    return {
      a,
      b,
      finding: finding as Link['finding'],
      question: 'oneMatrix',
      score: score === '' ? null : Number(score),
      strength: 'strong',
      descent: 'cannotJudge',
      imageLeft: null,
    };
  });
  return { slides, links };
}

describe('forty breech faces', () => {
  it('are ten groups, none false, all placed', () => {
    const { slides, links } = breech();
    const objects = [...slides.keys()].map((id) => ({ id }));
    const { groups, single } = groupObjects(objects, links, [], [], links.length);
    expect(groups).toHaveLength(10);
    for (const { members } of groups) expect(new Set(members.map((id) => slides.get(id))).size).toBe(1);
    expect(single).toEqual([]);
  });
});
