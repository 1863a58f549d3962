import type { ChainEnd, Material, Range, SizeReading } from '../../compare/index.ts';

/** One thing that the size ratio says, in sentences. */
export function sizeWords(reading: SizeReading): string {
  switch (reading.code) {
    case 'ratio':
      return ratioWords(reading);
    case 'scaleAssumed':
      return `Size decides nothing: ${reading.whose.map((side) => `the ${side}'s`).join(' and ')} scale uncertainty is not stated and was taken as ${reading.percent} %.`;
    case 'ratioUncertain':
      return 'Size decides nothing: the ratio is not known to one part in a hundred.';
    case 'rolesUnsure':
      return 'Size decides nothing: which of the two is the negative is not sure, and what speaks for a direct impression of the one speaks for a copy of the other. State their kinds.';
    case 'oneMatrix':
      return `One matrix without a copy between (reference: ${endWords(reading.reference)}; subject: ${endWords(reading.subject)}) asks for ${spoken(reading.range)}: the size ${reading.agrees ? 'agrees' : 'does not agree'}. The ranges rest on a published trial, on charts that disagree and partly on memory.`;
    case 'recast':
      return `A matrix recast from this impression would give ${spoken(reading.direct)}, or ${spoken(reading.throughWax)} with a wax model between: the size ${reading.agrees ? 'agrees with that' : 'speaks against that'}.`;
    case 'copyOfMatrix':
      return `A copy moulded from the matrix would give ${spoken(reading.range)}${reading.passes ? ' and passes the same test' : ''}. An impression taken today passes whatever it was taken from.`;
    case 'uneven':
      return `Across and along differ (x ${reading.x.toFixed(4)}, y ${reading.y.toFixed(4)}, each ± ${reading.sd.toFixed(4)} or less): the subject was stretched unevenly, as warped wax is, or one scan's axes are not alike.`;
    case 'depthUnknown':
      return 'Depth could not be compared.';
    case 'depthAsSize':
      return 'The relief is as deep as the size ratio asks for.';
    case 'depthWorn':
      return `The relief as a whole lacks ${reading.lacksPercent.toFixed(0)} % of its height, so that its depth says nothing of size.`;
    case 'shallower':
      return `The relief is ${reading.percent.toFixed(0)} % shallower than the size ratio asks for: rubbed, flattened or not filled, or the reference was cut deeper since.`;
    case 'deeper':
      return `The relief is ${reading.percent.toFixed(0)} % deeper than the size ratio asks for: the reference is worn, lapped down or clogged, or the subject is not what it left.`;
  }
}

function ratioWords({ ratio, sd, same }: Extract<SizeReading, { readonly code: 'ratio' }>): string {
  const percent = Math.abs(100 * (ratio - 1)).toFixed(1);
  const words = same ? 'as large as' : `${percent} % ${ratio < 1 ? 'smaller' : 'larger'} than`;
  return `The subject is ${words} the reference: ratio ${ratio.toFixed(4)} ± ${sd.toFixed(4)} (1 σ).`;
}

function endWords(end: ChainEnd): string {
  switch (end.code) {
    case 'matrix':
      return 'the matrix itself';
    case 'mouldOfImpression':
      return 'a mould of an impression';
    case 'cast':
      return `a cast in ${materialWords[end.material]} of an impression, or of the matrix`;
    case 'impression':
      return `an impression in ${materialWords[end.material]}`;
  }
}

export const materialWords: Readonly<Record<Material, string>> = {
  pouredWax: 'poured wax',
  pressedWax: 'pressed wax',
  wax: 'wax',
  plaster: 'plaster',
  condensationSilicone: 'condensation-cured silicone',
  silicone: 'silicone',
  castMetal: 'cast metal',
};

const spoken = ([least, most]: Range): string =>
  least === most ? least.toFixed(3) : `${least.toFixed(3)} to ${most.toFixed(3)}`;
