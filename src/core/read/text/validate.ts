import { isLetterText } from './reserved.ts';
import { endsWord, type Item, type Transcription, transcriptionSchema } from './transcription.ts';

export interface TranscriptionIssue {
  /** Which item, counted from 0; −1 where it is not about one item. */
  readonly index: number;
  readonly words: string;
}

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
      words: `${path.join('.') || 'transcription'}: ${message}`,
    }));
  const issues: TranscriptionIssue[] = [];
  const { items } = parsed.data;
  items.forEach((item, index) => {
    for (const words of faults(item, index, parsed.data)) issues.push({ index, words });
  });
  const ids = parsed.data.sources.map((source) => source.id);
  if (new Set(ids).size !== ids.length) issues.push({ index: -1, words: 'Two sources have the same id.' });
  return issues;
}

function* faults(item: Item, index: number, { items, sources }: Transcription): Generator<string> {
  if (item.kind === 'letter' || item.kind === 'sign') {
    if (item.state === 'supplied' && !item.source) yield 'A supplied letter names its source.';
    if (item.state !== 'supplied' && item.source) yield 'Only a supplied letter has a source.';
    const id = item.source?.id;
    const source = sources.find((s) => s.id === id);
    if (id !== undefined && !source) yield `There is no source ${id}.`;
    const wanted = item.source?.from === 'witness' ? 'witness' : 'person';
    if (source && source.kind !== wanted) yield `The source ${source.id} is not a ${wanted}.`;
  }
  if (item.kind === 'letter') {
    if (!isLetterText(item.text)) yield `"${item.text}" cannot stand as one letter.`;
    if (item.joined && items[index + 1]?.kind !== 'letter') yield 'A ligature goes on to a letter.';
  }
  const before = items[index - 1];
  if (item.kind === 'gap' && item.reason === 'illegible' && before?.kind === 'gap' && before.reason === 'illegible')
    yield 'Two stretches of traces in a row are one.';
  if (item.kind === 'gap' && item.about && item.quantity === null) yield 'An unknown number cannot be an estimate.';
  if ((item.kind === 'expansion' || item.kind === 'mark') && !followsLetter(items, index))
    yield 'An expansion or abbreviation mark follows a letter of its own word.';
  if (item.kind === 'expansion' && before?.kind === 'expansion') yield 'Two expansions in a row are one.';
  if (item.kind === 'expansion' && item.text !== null && /[()\n]/.test(item.text))
    yield 'An expansion holds no brackets or line breaks.';
  if (item.kind === 'expansion' && item.text === '---') yield 'An unsolved abbreviation has no expansion.';
  if (item.kind === 'expansion' && item.text !== null && item.text !== item.text.trim())
    yield 'An expansion begins and ends with a letter.';
}

function followsLetter(items: readonly Item[], index: number): boolean {
  for (let i = index - 1; i >= 0 && !endsWord(items[i]); i--)
    if (items[i].kind === 'letter' || items[i].kind === 'gap') return true;
  return false;
}
