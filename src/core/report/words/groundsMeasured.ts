import { capital } from '../../scan/index.ts';
import type { GroundCode, GroundFact } from '../grounds.ts';
import { gateWords } from './gates.ts';

/** How a ground was measured, with its gates. */
export const howMeasured = ({ code, gates }: GroundFact): string => [how[code], ...gates.map(gateLine)].join(' ');

const how: Readonly<Record<GroundCode, string>> = {
  places:
    'Small windows on letters and ornaments are registered one by one (to fractions of a cell), a smooth flow of at most third degree is taken out, and the score is log₁₀ of how much likelier the rest is under a scatter of 5 to 20 µm, more on images longer than 45 mm, than under 30 µm to 1 mm.',
  missing:
    'A place counts as without counterpart where the second face has relief of the same strength, and none of it correlates with the first within the reach of the search.',
  legend:
    'The places within 0.15 to 0.3 of the size of the middle scatter as on one matrix and those farther out lie anywhere, against all of them scattering as on one matrix: log₁₀ of the two likelihoods.',
  cells:
    'Congruent matching cells (after Song 2013): correlated better than 95 of 100 cells laid at wrong places of this same pair, turned by less than 6° and shifted by less than 0.5 % of the face against the median of all.',
  state:
    'Marks found on each face alone and in the depth differences; a mark counts as lacking only where the other surface is filled, unworn and scanned.',
  shared: 'Marks of the same place, course and kind on both faces, each found on its own.',
  brokenAlike:
    'The outer edges of both scans are laid on one another by the fit and by a small shift, turn and growth. Where both run through a bay of their hull within 0.3 mm, each is taken off its own parabola and what is left of the two is correlated: 3 standard deviations are asked. Pieces lie below the ground of the field and are compared edge against edge and floor against floor.',
  size: 'Scale of the similarity that lays the two on one another, with its standard deviation and both scans’ own scale uncertainty, against the ranges in which wax, plaster and metals shrink or grow.',
  wear: 'Gain of the second relief on the first: covariance of the two over the variance of the first, in each part of the legend.',
  noDesign:
    'Significance that the same search reaches on a copy of each face worn and noised like the other, against what it reaches where the two cannot agree.',
  overlap: 'Share of the smaller face that keeps weight in the robust fit.',
  turns: 'Correlation of the band-passed relief at every turn in steps of a few degrees, refined.',
  mirrored: 'Tried only after both proper ways of laying the two on one another have failed.',
  struckTwice: 'Double edges of one direction and one distance over a part of the face.',
  noFit:
    'Correlation of the band-passed relief over all turns and sizes from 0.90 to 1.10, against its values where the two cannot agree.',
};

const gateLine = ({ code, value, bound, limit, passed }: GroundFact['gates'][number]): string => {
  const { name, unit } = gateWords[code];
  const figure = (n: number): string => `${Number.isInteger(n) ? n : n.toFixed(2)}${unit ? ` ${unit}` : ''}`;
  return `${capital(name)}: ${figure(value)}, ${bound === 'atLeast' ? 'at least' : 'at most'} ${figure(limit)} asked${passed ? '' : ', not reached'}.`;
};
