import type { DescentBy } from '../../judge/index.ts';
import { lossesWords } from './descent.ts';

/** The ground of two that are broken along one edge, or lack the same pieces. */
export const brokenAlikeTold = ({ edge, losses }: DescentBy) => ({
  title: edge ? 'Both are broken along one edge' : 'Both lack the same pieces',
  figure: edge ? `${edge.lengthMm.toFixed(0)} mm` : `${losses?.count ?? 0} pieces`,
  says: [
    ...(edge ? [edgeSays(edge)] : []),
    ...(losses ? [lossesWords(losses)] : []),
    'A piece breaks off once: both go back to one impression without it.',
  ].join(' '),
  against: edge
    ? 'A matrix that itself ends there, broken or of such an outline, with both scans trimmed along it, would show the same. Which of the two came first an edge does not say.'
    : 'Dirt, burr or solder on a matrix leaves hollows that independent impressions share; but it breaks no edge, and one of these pieces at least does.',
  overturn: edge
    ? 'An impression that was surely pressed with the matrix itself, and ends along the same edge: then the matrix ends there.'
    : 'Impressions that were surely pressed one by one, and lack the same pieces: then the matrix left them out.',
});

const edgeSays = ({ lengthMm, roughMm, apartMm }: NonNullable<DescentBy['edge']>): string =>
  `Over ${lengthMm.toFixed(0)} mm, where it strays by ${roughMm.toFixed(2)} mm from a smooth curve, the broken edge of the one lies ${apartMm.toFixed(2)} mm from that of the other.`;
