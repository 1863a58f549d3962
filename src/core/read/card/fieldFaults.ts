import { type CardFault, validateCard } from './validateCard.ts';

/** Where a part of a card is written, by the beginning of its path: the first that fits. */
const written = [
  ['shelfmark', 'shelfmark'],
  ['seal', 'sealNumber'],
  ['objectType', 'objectType'],
  ['attachment', 'attachment'],
  ['status', 'status'],
  ['object.generation', 'generation'],
  ['object.chain', 'chain'],
  ['cast', 'castMaterial'],
  ['links', 'parent'],
  ['sides.0.image', 'imageHeight'],
  ['sides.1.image', 'imageHeight2'],
  ['sides.0.legend', 'legend'],
  ['sides.1.legend', 'legend2'],
  ['sides.0.shape', 'shape'],
  ['sides.1', 'side2'],
  ['betweenSides', 'turn'],
  ['piece', 'pieceHeight'],
  ['surviving', 'survivingHeight'],
  ['date', 'notBefore'],
  ['scan.date', 'scanDate'],
] as const satisfies ReadonlyArray<readonly [path: string, field: string]>;

/** A field of text that a fault may be told of. */
export type FaultyField = (typeof written)[number][1];

/** A fault of a card that was made of fields: the field, null where no form has one, and what is wrong. */
export interface FieldFault {
  readonly field: FaultyField | null;
  readonly fault: CardFault;
}

/** Each fault with the field that it is in. */
export const fieldFaults = (card: unknown): FieldFault[] =>
  validateCard(card).map((fault) => ({
    field: written.find(([start]) => fault.field.startsWith(start))?.[1] ?? null,
    fault,
  }));
