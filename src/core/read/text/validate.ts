import { isLetterText } from './reserved.ts';
import { endsWord, type Item, type Transcription, transcriptionSchema } from './transcription.ts';

/** What can be wrong with an item, or with the list of sources. */
export type TranscriptionFault =
  /** A part has not the shape that the schema asks for; `message` is the schema's own. */
  | { readonly code: 'shape'; readonly path: string; readonly message: string }
  | { readonly code: 'noSource' | 'needlessSource' }
  | { readonly code: 'unknownSource'; readonly id: string }
  | { readonly code: 'otherSource'; readonly id: string; readonly wanted: 'witness' | 'person' }
  | { readonly code: 'notOneLetter'; readonly text: string }
  | { readonly code: 'openLigature' | 'tracesInARow' | 'estimateOfUnknown' }
  | { readonly code: 'followsNoLetter' | 'expansionsInARow' | 'bracketInExpansion' }
  | { readonly code: 'dashesAsExpansion' | 'spaceRoundExpansion' | 'sameSourceId' };

export type TranscriptionIssue = {
  /** Which item, counted from 0; −1 where it is not about one item. */
  readonly index: number;
} & TranscriptionFault;

/**
 * What is wrong with a transcription; empty when nothing is. Besides the shapes of its parts: a supplied letter names its
 * source and no other does; sources exist and are of the right kind; a ligature goes on to a letter; an expansion
 * or abbreviation mark follows a letter of its own word.
 */
export function validateTranscription(input: unknown): TranscriptionIssue[] {
  const parsed = transcriptionSchema.safeParse(input);
  if (!parsed.success)
    return parsed.error.issues.map(({ path, message }) => ({
      index: path[0] === 'items' && typeof path[1] === 'number' ? path[1] : -1,
      code: 'shape',
      path: path.join('.'),
      message,
    }));
  const { items, sources } = parsed.data;
  const issues: TranscriptionIssue[] = items.flatMap((item, index) =>
    [...faults(item, index, parsed.data)].map((fault) => ({ index, ...fault })),
  );
  const ids = sources.map((source) => source.id);
  if (new Set(ids).size !== ids.length) issues.push({ index: -1, code: 'sameSourceId' });
  return issues;
}

function* faults(item: Item, index: number, transcription: Transcription): Generator<TranscriptionFault> {
  const { items } = transcription;
  if (item.kind === 'letter' || item.kind === 'sign') yield* sourceFaults(item, transcription);
  if (item.kind === 'letter') {
    if (!isLetterText(item.text)) yield { code: 'notOneLetter', text: item.text };
    if (item.joined && items[index + 1]?.kind !== 'letter') yield { code: 'openLigature' };
  }
  const before = items[index - 1];
  if (item.kind === 'gap' && item.reason === 'illegible' && before?.kind === 'gap' && before.reason === 'illegible')
    yield { code: 'tracesInARow' };
  if (item.kind === 'gap' && item.about && item.quantity === null) yield { code: 'estimateOfUnknown' };
  if ((item.kind === 'expansion' || item.kind === 'mark') && !followsLetter(items, index))
    yield { code: 'followsNoLetter' };
  if (item.kind !== 'expansion') return;
  if (before?.kind === 'expansion') yield { code: 'expansionsInARow' };
  if (item.text !== null && /[()\n]/.test(item.text)) yield { code: 'bracketInExpansion' };
  if (item.text === '---') yield { code: 'dashesAsExpansion' };
  if (item.text !== null && item.text !== item.text.trim()) yield { code: 'spaceRoundExpansion' };
}

function* sourceFaults(
  { state, source: named }: Extract<Item, { kind: 'letter' | 'sign' }>,
  { sources }: Transcription,
): Generator<TranscriptionFault> {
  if (state === 'supplied' && !named) yield { code: 'noSource' };
  if (!named) return;
  if (state !== 'supplied') yield { code: 'needlessSource' };
  const { id } = named;
  if (id === undefined) return;
  const source = sources.find((each) => each.id === id);
  const wanted = named.from === 'witness' ? 'witness' : 'person';
  if (!source) yield { code: 'unknownSource', id };
  else if (source.kind !== wanted) yield { code: 'otherSource', id, wanted };
}

function followsLetter(items: readonly Item[], index: number): boolean {
  for (let i = index - 1; i >= 0 && !endsWord(items[i]); i--)
    if (items[i].kind === 'letter' || items[i].kind === 'gap') return true;
  return false;
}
