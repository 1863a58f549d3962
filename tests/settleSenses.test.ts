import { describe, expect, it } from 'vitest';
import type { Face, Sense } from '../src/core/face/index.ts';
import { askedOf } from '../src/core/judge/index.ts';
import { settleSenses } from '../src/core/settleSenses.ts';

const side = (sense: Sense, senseConfidence: number, senseFrom: Face['senseFrom'] = 'winding') => ({
  face: { sense, senseConfidence, senseFrom } as Face,
});
const laid = (turnedOver: boolean, found = true) => ({ found, turnedOver, mirrored: false });
const sensesOf = ({ reference, subject }: ReturnType<typeof settleSenses>): Sense[] => [
  reference.face.sense,
  subject.face.sense,
];

describe('the senses of a fitted pair', () => {
  it('are one where the faces fit as they lie: the surer one says which, in either order', () => {
    const [sure, unsure] = [side('intaglio', 0.84), side('relief', 0.5)];
    expect(sensesOf(settleSenses({ reference: unsure, subject: sure }, laid(false)))).toEqual(['intaglio', 'intaglio']);
    expect(sensesOf(settleSenses({ reference: sure, subject: unsure }, laid(false)))).toEqual(['intaglio', 'intaglio']);
  });
  it('are both where they fit turned over, and nothing is touched where they agree already', () => {
    const pair = { reference: side('relief', 0.9), subject: side('relief', 0.6) };
    expect(sensesOf(settleSenses(pair, laid(true)))).toEqual(['relief', 'intaglio']);
    const agreed = settleSenses(pair, laid(false));
    expect([agreed.reference, agreed.subject]).toEqual([pair.reference, pair.subject]);
    expect(agreed.reference).toBe(pair.reference);
  });
  it('leave what was stated, and say nothing without a fit', () => {
    const stated = { reference: side('relief', 1, 'stated'), subject: side('intaglio', 1, 'stated') };
    expect(sensesOf(settleSenses(stated, laid(false)))).toEqual(['relief', 'intaglio']);
    const apart = { reference: side('relief', 0.6), subject: side('intaglio', 0.9) };
    expect(sensesOf(settleSenses(apart, laid(false, false)))).toEqual(['relief', 'intaglio']);
  });
  it('make the question no surer than the two faces did', () => {
    const pair = { reference: side('relief', 0.7), subject: side('intaglio', 0.9) };
    const settled = settleSenses(pair, laid(false));
    const [before, after] = [pair, settled].map((each) => askedOf(each.reference.face, each.subject.face, laid(false)));
    expect(after.senses).toEqual(before.senses);
    expect(after.confidence).toBeCloseTo(before.confidence, 12);
  });
});
