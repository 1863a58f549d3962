import type { ComparedReadings, ReadingVerdict, ReadPlace } from '../../read/index.ts';

const verdicts: Readonly<Record<ReadingVerdict, string>> = {
  agree: 'both read the same',
  agreeDoubtful: 'both read the same, with a doubt',
  differ: 'they read different letters',
  readByOne: 'read by one of them only',
  onlyOne: 'one of them has nothing here',
  readByNeither: 'read by neither',
};

export const readingVerdictWords = (verdict: ReadingVerdict): string => verdicts[verdict];

const letters = (count: number): string => (count === 1 ? '1 letter' : `${count} letters`);

/** How far two readings agree, in a sentence or two. */
export function comparedReadingsWords({ counts, agreement }: ComparedReadings): string {
  const { agree, agreeDoubtful, differ, readByOne, onlyOne } = counts;
  const both = agree + agreeDoubtful + differ;
  if (agreement === null) return 'The two readings have no letter in common that both read.';
  const doubt = agreeDoubtful > 0 ? `, ${agreeDoubtful} of them with a doubt` : '';
  const rest = [
    readByOne > 0 ? `${letters(readByOne)} read by one of them only` : '',
    onlyOne > 0 ? `${letters(onlyOne)} where the other has no place` : '',
  ].filter(Boolean);
  const besides = rest.length > 0 ? ` Besides: ${rest.join('; ')}.` : '';
  const same = agree + agreeDoubtful;
  const [agrees, differs] = [same === 1 ? 'agrees' : 'agree', differ === 1 ? 'differs' : 'differ'];
  return `Of ${letters(both)} that both read, ${same} ${agrees} (${Math.round(100 * agreement)} %${doubt}), ${differ} ${differs}.${besides}`;
}

/** What one reader has at a place. */
export function readPlaceWords(place: ReadPlace | null): string {
  if (!place) return 'nothing';
  if (place.text !== null) return place.doubtful ? `${place.text}, doubtful` : place.text;
  return place.missing === 'supplied' ? 'not seen, supplied' : place.missing === 'lost' ? 'lost' : 'illegible';
}
