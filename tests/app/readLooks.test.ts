import { describe, expect, it } from 'vitest';
import { draws, fieldOf, stepKinds, withField } from '../../src/app/read/light/stepKinds.ts';
import { allLooks, freeName, lampOf, lookNamed, withLamp } from '../../src/app/read/state/looks.ts';
import { clockWords } from '../../src/app/read/state/words.ts';
import { emptyGrid, seededRandom } from '../../src/core/geometry/index.ts';
import { applyLook, light, parseLook, standardLooks } from '../../src/core/read/index.ts';
import { pictureWords } from '../../src/core/report/words/index.ts';

const random = seededRandom(3);
const grid = emptyGrid(-3, 3, -3, 3, 0.15);
for (let i = 0; i < grid.z.length; i++) {
  grid.mask[i] = 1;
  grid.z[i] = 0.2 * Math.sin(i / 7) + random.between(-0.02, 0.02);
}

describe('looks', () => {
  it('come by name, the one for rubbed legends at the letters’ height, one’s own last', () => {
    const own = { name: 'Mine', steps: [{ do: 'heights' as const }] };
    const looks = allLooks([own], 5);
    expect(looks).toHaveLength(standardLooks.length + 1);
    expect(looks.at(-1)).toBe(own);
    expect(lookNamed('Faint legend', looks).steps).toContainEqual({ do: 'localHeight', meanMm: 10, asMm: 0.1 });
    expect(lookNamed('not there', looks)).toBe(looks[0]);
    expect(freeName('Mine', looks)).toBe('Mine 2');
    expect(freeName('Another', looks)).toBe('Another');
  });

  it('are lit by the lamp that the user moves, and by no other', () => {
    const lamp = { azimuthDeg: 77, heightDeg: 13 };
    for (const look of standardLooks) {
      const moved = withLamp(look, lamp);
      expect(() => parseLook(moved)).not.toThrow();
      if (lampOf(look)) {
        expect(lampOf(moved), look.name).toEqual(lamp);
        expect(pictureWords(applyLook(grid, moved).shown), look.name).toContain('77°');
      } else expect(moved).toEqual(look);
      expect(withLamp(look, null)).toBe(look);
    }
  });

  it('give the light of the core where they are a lamp alone', () => {
    const [raking] = standardLooks;
    const lamp = { azimuthDeg: 120, heightDeg: 22 };
    const lit = light(grid, [lamp]).grey;
    const seen = applyLook(grid, withLamp(raking, lamp)).grey;
    let most = 0;
    for (let i = 0; i < lit.length; i++) most = Math.max(most, Math.abs(lit[i] - seen[i]));
    expect(most).toBeLessThanOrEqual(1);
  });
});

describe('the steps of one’s own look', () => {
  it('begin valid, and every number that is asked for can be set', () => {
    for (const [kind, { first, fields }] of Object.entries(stepKinds)) {
      expect(first.do).toBe(kind);
      expect(() => parseLook({ name: 'one', steps: [first] })).not.toThrow();
      for (const { name } of fields) {
        const set = withField(first, name, 1);
        expect(fieldOf(set, name), `${kind} ${name}`).toBe(1);
        expect(() => parseLook({ name: 'one', steps: [set] }), `${kind} ${name}`).not.toThrow();
      }
    }
  });

  it('draw or change heights as the core has it', () => {
    for (const { first } of Object.values(stepKinds)) {
      const [step] = parseLook({ name: 'one', steps: [first] }).steps;
      expect(draws(first), first.do).toBe('over' in step);
    }
  });
});

describe('places', () => {
  it('are told by the clock', () => {
    expect([0, 112, 359, 90, 187, 352].map(clockWords)).toEqual([
      '12 o’clock',
      '3¾ o’clock',
      '12 o’clock',
      '3 o’clock',
      '6¼ o’clock',
      '11¾ o’clock',
    ]);
  });
});
