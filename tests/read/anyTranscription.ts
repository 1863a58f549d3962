import fc from 'fast-check';
import { signNames, type Transcription, validateTranscription } from '../../src/core/read/index.ts';

const ids = ['W1', 'W2', 'P1', 'P2'] as const;
const printable = fc
  .string({ unit: 'grapheme', minLength: 1, maxLength: 20 })
  .filter((s) => !/[\p{Cc}\p{Cs}]/u.test(s));
const sources = fc.tuple(printable, printable, printable, printable).chain((names) =>
  fc.shuffledSubarray(
    ids.map((id, k) => ({ id, kind: id.startsWith('W') ? ('witness' as const) : ('person' as const), name: names[k] })),
    { minLength: 4, maxLength: 4 },
  ),
);
const source = fc.oneof(
  fc.constantFrom('W1', 'W2').map((id) => ({ from: 'witness' as const, id })),
  fc.constantFrom('P1', 'P2').map((id) => ({ from: 'conjecture' as const, id })),
  fc.constant({ from: 'conjecture' as const }),
);
const along = fc.option(
  fc.double({ min: 0, max: 300, noNaN: true, noDefaultInfinity: true }).filter((v) => !Object.is(v, -0)),
  { nil: undefined },
);
const placed = <T extends object>(item: T) =>
  along.map((alongMm) => (alongMm === undefined ? item : { ...item, alongMm }));
const flag = (chance: number) => fc.double({ min: 0, max: 1, noNaN: true }).map((v) => v < chance);

const letter = fc
  .record({
    text: fc.oneof(fc.constantFrom(...'ABCDEFGHIKLMNOPQRSTVXYZƷÞ', 'e', 'm', '7', 'Q\u0304', 'É', '&', '"')),
    state: fc.constantFrom('clear', 'clear', 'clear', 'doubtful', 'supplied', 'omitted', 'superfluous'),
    source,
    joined: flag(0.15),
    reversed: flag(0.1),
  })
  .map(({ text, state, source, joined, reversed }) => ({
    kind: 'letter' as const,
    text,
    state,
    ...(state === 'supplied' && { source }),
    ...(joined && { joined: true as const }),
    ...(reversed && { reversed: true as const }),
  }));
const sign = fc
  .record({ name: fc.constantFrom(...signNames), state: fc.constantFrom('clear', 'doubtful', 'supplied'), source })
  .map(({ name, state, source }) => ({ kind: 'sign' as const, name, state, ...(state === 'supplied' && { source }) }));
const gap = fc
  .record({
    reason: fc.constantFrom('lost', 'illegible'),
    quantity: fc.option(fc.integer({ min: 1, max: 12 }), { nil: null }),
    about: fc.boolean(),
  })
  .map(({ reason, quantity, about }) => ({
    kind: 'gap' as const,
    reason,
    quantity,
    ...(about && quantity !== null && { about: true as const }),
  }));
const expansion = fc
  .option(fc.stringMatching(/^[a-z]([a-z &<"]{0,6}[a-z])?$/), { nil: null })
  .map((text) => ({ kind: 'expansion' as const, text }));
const item = fc.oneof(
  { weight: 10, arbitrary: letter.chain(placed) },
  { weight: 2, arbitrary: sign.chain(placed) },
  { weight: 2, arbitrary: gap.chain(placed) },
  { weight: 2, arbitrary: expansion },
  {
    weight: 1,
    arbitrary: fc
      .constantFrom("'", '¯')
      .map((text) => ({ kind: 'mark' as const, text }))
      .chain(placed),
  },
  { weight: 3, arbitrary: fc.constant({ kind: 'space' as const }) },
  { weight: 1, arbitrary: fc.constant({ kind: 'line' as const }) },
);

/** Transcriptions with everything that the model can say, made valid by leaving out what the validator finds fault with. */
export const anyTranscription = fc
  .record({
    language: fc.constantFrom('la', 'fro', 'en', 'gmh'),
    items: fc.array(item, { maxLength: 40 }),
    sources,
    translation: fc.option(fc.record({ language: fc.constantFrom('en', 'de'), text: printable }), { nil: undefined }),
  })
  .map((raw) => {
    const whole = { ...raw, ...(raw.translation === undefined && { translation: undefined }) } as Transcription;
    const { translation, ...rest } = whole;
    let kept = { ...rest, ...(translation && { translation }) } as Transcription;
    for (;;) {
      const faulty = validateTranscription(kept).map((issue) => issue.index);
      if (faulty.length === 0) return kept;
      const drop = Math.min(...faulty.filter((index) => index >= 0));
      kept = { ...kept, items: kept.items.filter((_, i) => i !== drop) };
    }
  });
