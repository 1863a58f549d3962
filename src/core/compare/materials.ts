import type { Sense } from '../face/index.ts';

/** Least and greatest size against the object that it was made from. */
export type Range = readonly [number, number];

/** Materials whose change of size is known. */
export type Material =
  | 'pouredWax'
  | 'pressedWax'
  | 'wax'
  | 'plaster'
  | 'condensationSilicone'
  | 'silicone'
  | 'castMetal';

/**
 * How materials change their size as they set: linear, cast ÷ mould. Sources: poured beeswax, 1.2 to
 * 3.4 %, one published trial, whose title was not kept with the figure; pressed wax, from memory; plaster and dental
 * stone, published; silicones, published (condensation cure) and from memory (addition cure); metals, foundry charts,
 * which disagree. Which row a word belongs to is common practice of the trade.
 */
const changes: ReadonlyArray<{ readonly words: RegExp; readonly name: Material; readonly range: Range }> = [
  { words: /pour.*wax|wax.*pour/i, name: 'pouredWax', range: [0.966, 0.988] },
  { words: /press.*wax|wax.*press|shellac|sealing/i, name: 'pressedWax', range: [0.99, 0.998] },
  { words: /wax/i, name: 'wax', range: [0.966, 0.998] },
  { words: /plaster|gyps|stone|alabaster/i, name: 'plaster', range: [1.0005, 1.0035] },
  { words: /condensation/i, name: 'condensationSilicone', range: [0.988, 0.992] },
  { words: /silicon|rubber|elastomer/i, name: 'silicone', range: [0.988, 0.999] },
  { words: /bronze|brass|lead|tin|silver|pewter|latten|copper|metal/i, name: 'castMetal', range: [0.974, 0.99] },
];

/** Each row by name: what the sizes of a chain are worked out from. */
export const materialFigures = changes.map(({ words, name, range }) => ({ words: words.source, name, range }));

export const rangeOf = (name: Material): Range => changes.find((row) => row.name === name)?.range ?? [1, 1];

export const wax = rangeOf('wax');
const pouredWax = rangeOf('pouredWax');
export const mouldOfAnything = rangeOf('silicone');
export const plaster = rangeOf('plaster');
const metal = rangeOf('castMetal');

/** The row that a stated material belongs to; undefined for none or an unknown one. */
export const changeOf = (material: string | undefined) => changes.find(({ words }) => words.test(material ?? ''));

/** Whether light enters the material and blurs an optical scan of it. */
export const isTranslucent = (material: string | undefined): boolean => /wax|resin|shellac/i.test(material ?? '');

export const product = (...ranges: readonly Range[]): Range =>
  ranges.reduce<Range>((all, range) => [all[0] * range[0], all[1] * range[1]], [1, 1]);
export const quotient = (a: Range, b: Range): Range => [a[0] / b[1], a[1] / b[0]];

/** What an object is for the chain of sizes. */
export interface ChainLink {
  readonly sense: Sense;
  readonly kind?: string | undefined;
  readonly material?: string | undefined;
}

/** One side of a size test. */
export interface SizedObject extends ChainLink {
  /** Scale uncertainty of the scan, percent (1 σ), and whether anybody stated it. */
  readonly scaleUncertaintyPercent: number;
  readonly scaleUncertaintyFrom: 'stated' | 'assumed';
}

/** What an object without a copy between is taken for. */
export type ChainEnd =
  | { readonly code: 'matrix' | 'mouldOfImpression' }
  | { readonly code: 'cast' | 'impression'; readonly material: Material };

/** Size of an object that descends from the matrix without a copy between, against that matrix. */
export function sizeFromMatrix({ sense, kind, material }: ChainLink): { range: Range; end: ChainEnd } {
  const stated = changeOf(material);
  if (sense === 'intaglio')
    return kind === 'mould'
      ? { range: product(wax, stated?.range ?? mouldOfAnything), end: { code: 'mouldOfImpression' } }
      : { range: [1, 1], end: { code: 'matrix' } };
  if (kind === 'cast' || stated?.name === 'plaster') {
    const own = stated?.range ?? plaster;
    const [least] = product(wax, mouldOfAnything, own);
    // A cast may also be taken straight from the matrix.
    return {
      range: [least, own[1]],
      end: { code: 'cast', material: stated?.name ?? 'plaster' },
    };
  }
  return { range: stated?.range ?? wax, end: { code: 'impression', material: stated?.name ?? 'wax' } };
}

/** A matrix cast in metal from a mould of an impression, against that impression: directly, or by way of a wax model. */
export const recastOverImpression: { readonly direct: Range; readonly throughWax: Range } = {
  direct: [0.97, 0.99],
  throughWax: product(pouredWax, mouldOfAnything, metal),
};

/** A metal copy moulded from the matrix itself, against that matrix. */
export const copyOverMatrix: Range = product(mouldOfAnything, metal);
