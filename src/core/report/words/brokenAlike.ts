import type { DescentBy } from '../../judge/index.ts';
import { lossesWords, piecesWords, stepWords } from './descent.ts';

/** The ground of two that are broken along one edge, or lack the same pieces. */
export const brokenAlikeTold = ({ edge, losses, step }: DescentBy) => ({
  title: edge
    ? 'Both are broken along one edge'
    : losses?.count === 1
      ? 'Both lack the same piece'
      : 'Both lack the same pieces',
  figure: edge ? `${edge.lengthMm.toFixed(0)} mm` : piecesFigure(losses?.count ?? 0),
  says: [
    ...(edge ? [edgeSays(edge)] : []),
    ...(losses ? [lossesWords(losses)] : []),
    'A piece breaks off once: both go back to one impression without it.',
    ...(step ? [stepWords(step)] : []),
  ].join(' '),
  against: edge
    ? 'A matrix that itself ends there, broken or of such an outline, with both scans trimmed along it, would show the same. Which of the two came first an edge does not say.'
    : dirtWords(losses?.count ?? 0),
  overturn: edge
    ? 'An impression that was surely pressed with the matrix itself, and ends along the same edge: then the matrix ends there.'
    : 'Impressions that were surely pressed one by one, and lack the same pieces: then the matrix left them out.',
});

const piecesFigure = (count: number): string => (count === 1 ? '1 piece' : piecesWords(count));

const dirtWords = (count: number): string =>
  `Dirt, burr or solder on a matrix leaves hollows that independent impressions share; but it breaks no edge, and ${count === 1 ? 'this piece' : 'one of these pieces at least'} does.${count === 1 ? ' A matrix that itself leaves this place at its edge out would show the same.' : ''}`;

const edgeSays = ({ lengthMm, roughMm, apartMm }: NonNullable<DescentBy['edge']>): string =>
  `Over ${lengthMm.toFixed(0)} mm, where it strays by ${roughMm.toFixed(2)} mm from a smooth curve, the broken edge of the one lies ${apartMm.toFixed(2)} mm from that of the other.`;
