import { breakOff } from '../../populations/breakOff.ts';
import { type Chance, chanceOf } from '../../populations/chance.ts';
import { cutMatrix } from '../../populations/cutMatrix.ts';
import { draw, letterHand } from '../../populations/drawing.ts';
import { latticeOver } from '../../populations/lattice.ts';
import type { Made } from '../../populations/made.ts';
import { scanOf } from '../../populations/scanning.ts';
import { newLayout } from '../../populations/story.ts';
import { conditionCode } from '../../populations/types.ts';
import { mould, press, pressing } from '../../populations/wax.ts';
import { hurt } from '../../populations/wounds.ts';
import type { DescentCase, DescentPair } from './pairs.ts';

/**
 * A pair of the second generator. An impression has one to three accidents and a piece of 6 to 35 % broken off; a cast comes of it
 * through a mould, with accidents of its own, and the impression has some more since.
 */
export function secondDescent({ seed, isCast, castFirst }: DescentCase): DescentPair {
  const chance = chanceOf(`descent ${seed}`);
  const matrix = newMatrix(chance);
  const original = impression(matrix, chance.branch('original'));
  const other = isCast ? castOf(original, chance.branch('cast')) : impression(matrix, chance.branch('other'));
  const today = isCast ? hurt(original, false, 'some', chance.branch('since'), { next: 200 }) : original;
  const noiseUm = chance.logRange(2, 20);
  const scan = (made: Made, name: string): DescentPair['scans'][0] => {
    const own = chance.branch(name);
    const support = own.choose(['trimmed', 'trimmed', 'table', 'closed'] as const);
    const how = { support, spacingMm: own.range(0.09, 0.15), noiseUm, unit: 'mm' as const, maxVertices: 30_000 };
    return { bytes: scanOf(made, how, own.branch('scan')).scan.bytes, unit: 'mm' };
  };
  const scans = [scan(today, 'scan original'), scan(other, 'scan other')] as const;
  return {
    copyIs: isCast ? (castFirst ? 'reference' : 'subject') : null,
    scans: castFirst ? [scans[1], scans[0]] : scans,
    lostShare: lostOf(original),
    castSize: isCast ? other.scale[0] / original.scale[0] : 1,
  };
}

function newMatrix(chance: Chance): Made {
  const layout = newLayout({ sizeMm: chance.logRange(18, 45) }, chance.branch('layout'));
  const drawing = draw(layout, letterHand(chance.branch('hand')), chance.branch('drawing'));
  const { halfWidth, halfHeight } = layout.outline;
  const pad = 0.13 * halfWidth + 3.5;
  return cutMatrix(drawing, latticeOver(halfWidth + pad, halfHeight + pad, 0.09), chance.branch('cutting'));
}

function impression(matrix: Made, chance: Chance): Made {
  const pressed = press(
    matrix,
    pressing(chance, chance.choose(['none', 'some'] as const), false),
    chance.branch('press'),
  );
  const counter = { next: 0 };
  const damaged = hurt(pressed, false, 'some', chance.branch('hurt'), counter);
  return breakOff(damaged, chance.range(0.65, 0.94), chance.branch('break'), counter);
}

function castOf(original: Made, chance: Chance): Made {
  const moulded = mould(original, chance.range(-0.003, 0.012), chance.branch('mould'));
  const cast = mould(moulded, chance.range(-0.003, 0.012), chance.branch('cast'));
  return hurt(cast, true, 'some', chance.branch('hurt'), { next: 100 });
}

function lostOf({ outside, condition }: Made): number {
  let [whole, lost] = [0, 0];
  for (let i = 0; i < outside.length; i++) {
    if (outside[i] > 0) continue;
    whole++;
    if (condition[i] === conditionCode.lost) lost++;
  }
  return lost / whole;
}
