import { describe, expect, it } from 'vitest';
import type { Sense } from '../../src/core/face/index.ts';
import { askedOf } from '../../src/core/judge/asked.ts';

const side = (sense: Sense, senseConfidence: number, senseFrom: 'stated' | 'closedBody' | 'winding' = 'winding') => ({
  sense,
  senseConfidence,
  senseFrom,
});
const laid = (turnedOver: boolean, found = true) => ({ found, turnedOver, mirrored: false });

describe('the question of a pair', () => {
  it('follows the fit, not two readings of the skew of heights', () => {
    const asked = askedOf(side('intaglio', 0.9), side('intaglio', 0.51), laid(true));
    expect(asked.question).toBe('madeFrom');
    expect(asked.senses).toEqual(['intaglio', 'relief']);
    expect(asked.confidence).toBeGreaterThan(0.85);
  });
  it('is one of one sense where the faces fit as they lie, whichever sense the surer face shows', () => {
    expect(askedOf(side('relief', 0.95), side('intaglio', 0.6), laid(false)).question).toBe('oneMatrix');
    expect(askedOf(side('relief', 0.6), side('intaglio', 0.95), laid(false)).question).toBe('oneParent');
  });
  it('is the same with the scans exchanged, the senses with them', () => {
    const [a, b] = [side('intaglio', 0.8), side('relief', 0.7)];
    const [here, there] = [askedOf(a, b, laid(true)), askedOf(b, a, laid(true))];
    expect(there.question).toBe(here.question);
    expect(there.senses).toEqual([here.senses?.[1], here.senses?.[0]]);
    expect(there.confidence).toBeCloseTo(here.confidence, 12);
  });
  it('says that two stated kinds contradict the fit', () => {
    const stated = [side('intaglio', 1, 'stated'), side('relief', 1, 'stated')] as const;
    expect(askedOf(...stated, laid(false)).statedAgainstFit).toBe(true);
    expect(askedOf(...stated, laid(true)).statedAgainstFit).toBe(false);
  });
  it('is null without a fit unless kinds are stated or bodies closed', () => {
    expect(askedOf(side('intaglio', 0.9), side('relief', 0.9), laid(false, false)).question).toBeNull();
    const known = askedOf(side('intaglio', 1, 'stated'), side('relief', 0.95, 'closedBody'), laid(false, false));
    expect(known.question).toBe('madeFrom');
  });
});
