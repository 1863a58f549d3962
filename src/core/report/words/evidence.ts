import type { EvidenceCode } from '../../judge/index.ts';

/** A piece of evidence: its name, the unit of its number, and what it says; without a full stop. */
export interface EvidenceWords {
  readonly name: string;
  readonly unit: string;
  readonly words: string;
}

export function evidenceWords(piece: EvidenceCode): EvidenceWords {
  switch (piece.code) {
    case 'wholeFace':
      return {
        name: 'fit of the whole face',
        unit: 'σ',
        words: `atanh(correlation) × √(independent cells), the best of all turns and sizes tried; where these two faces cannot agree, with heights of the wrong sign, the same search reaches ${piece.chanceSigma.toFixed(1)} σ; says that the designs are alike, and nothing of who cut them`,
      };
    case 'congruentCells':
      return {
        name: 'congruent cells',
        unit: `of ${piece.compared}`,
        words: `cells of ${piece.sideMm.toFixed(1)} mm that agree better than cells laid at wrong places of this pair do, within 6° and the shift of the rest; not weighed`,
      };
    case 'accidentsShared':
      return {
        name: 'accidents shared',
        unit: `of ${piece.found}`,
        words: 'cuts, cracks, scratches and pits found on either that both carry; not weighed in the score',
      };
    default:
      return fixed[piece.code];
  }
}

const fixed: Readonly<
  Record<Exclude<EvidenceCode['code'], 'wholeFace' | 'congruentCells' | 'accidentsShared'>, EvidenceWords>
> = {
  overHandCopy: {
    name: 'places, over a copy by hand',
    unit: '',
    words:
      'log₁₀ of how much likelier the places of letters and ornaments are if they scatter by 5 to 20 µm, more on images longer than 45 mm, as the wax of one matrix flows, than by 30 µm to 1 mm, as a copyist cuts',
  },
  overStockMotif: {
    name: 'places, over a stock motif',
    unit: '',
    words: 'the same against a motif freely cut anew under another legend, where any share of the places is absent',
  },
  scatter: {
    name: 'scatter of the places',
    unit: 'mm',
    words: 'what is left from place to place beyond their errors and a smooth flow',
  },
  nowhereNear: {
    name: 'places nowhere near',
    unit: '',
    words: 'share that lies nowhere near where the others put it: accidents, lips, or another legend',
  },
  size: {
    name: 'size',
    unit: '',
    words:
      'size ratio subject to reference, its uncertainty (1 σ) with both scans’ scale, against the materials’ ranges',
  },
  sharpness: {
    name: 'sharpness',
    unit: '',
    words:
      'height of the finest relief that both show, subject to reference, over that of the coarse relief; a cast is no sharper than its original, and wear blunts alike',
  },
};
