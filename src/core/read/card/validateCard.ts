import { type TranscriptionIssue, validateTranscription } from '../text/index.ts';
import { type Card, cardSchema } from './card.ts';

type ObjectClass = Card['object']['class'];

/** What is wrong with a card, and in which field: a path such as `sides.0.image`. */
export type CardFault = { readonly field: string } & (
  | /** A part has not the shape that the schema asks for; `message` is the schema's own. */
  { readonly code: 'shape'; readonly message: string }
  | { readonly code: 'sealBeyondLast'; readonly number: number; readonly of: number }
  | { readonly code: 'chainEnd'; readonly last: ObjectClass; readonly object: ObjectClass }
  | { readonly code: 'chainSteps'; readonly steps: number; readonly stated: number }
  | { readonly code: 'hangsNot' | 'castOnly'; readonly object: ObjectClass }
  | { readonly code: 'sidesAlike'; readonly side: Card['sides'][number]['side'] }
  | { readonly code: 'yearsReversed' | 'survivingTooLarge' | 'pieceTooSmall' }
  | { readonly code: 'legend'; readonly issue: TranscriptionIssue }
);

/** What is wrong with a card, each with its field; empty when nothing is. */
export function validateCard(input: unknown): CardFault[] {
  const parsed = cardSchema.safeParse(input);
  if (!parsed.success)
    return parsed.error.issues.map(({ path, message }) => ({
      field: path.join('.') || 'card',
      code: 'shape',
      message,
    }));
  return [...faults(parsed.data)];
}

function* faults(card: Card): Generator<CardFault> {
  const { seal, sides } = card;
  if (seal && seal.number > seal.of) yield { field: 'seal', code: 'sealBeyondLast', ...seal };
  yield* objectFaults(card);
  const { notBefore, notAfter } = card.date ?? {};
  if (notBefore !== undefined && notAfter !== undefined && notBefore > notAfter)
    yield { field: 'date', code: 'yearsReversed' };
  yield* sizeFaults(card);
  const [one, two] = sides;
  if (two && one.side === two.side && one.side !== 'unknown')
    yield { field: 'sides.1', code: 'sidesAlike', side: one.side };
  for (const [k, { legend }] of sides.entries())
    for (const issue of legend ? validateTranscription(legend) : [])
      yield { field: `sides.${k}.legend.items.${issue.index}`, code: 'legend', issue };
}

function* objectFaults(card: Card): Generator<CardFault> {
  const { class: object, chain, generation } = card.object;
  const last = chain.at(-1)?.object;
  if (last && last !== object) yield { field: 'object.chain', code: 'chainEnd', last, object };
  const steps = chain.length - 1;
  if (chain[0]?.object === 'matrix' && generation !== null && generation !== steps)
    yield { field: 'object.generation', code: 'chainSteps', steps, stated: generation };
  if (object !== 'impression' && card.attachment !== 'unknown') yield { field: 'attachment', code: 'hangsNot', object };
  if (card.cast && object !== 'cast') yield { field: 'cast', code: 'castOnly', object };
}

function* sizeFaults({ piece, surviving, sides }: Card): Generator<CardFault> {
  const less = (a: { heightMm: number; widthMm: number }, b: { heightMm: number; widthMm: number }): boolean =>
    a.heightMm < b.heightMm || a.widthMm < b.widthMm;
  if (piece && surviving && less(piece, surviving)) yield { field: 'surviving', code: 'survivingTooLarge' };
  // A fragment may be smaller than the image; the whole piece may not.
  if (piece && sides.some(({ image }) => image && less(piece, image))) yield { field: 'piece', code: 'pieceTooSmall' };
}

/** Reads a card from parsed JSON. Throws RangeError that names field and code of the first fault. */
export function parseCard(input: unknown): Card {
  const [first] = validateCard(input);
  if (!first) return cardSchema.parse(input);
  throw new RangeError(
    `The card is not valid at ${first.field}: ${first.code === 'shape' ? first.message : first.code}`,
  );
}
