import { signs } from './signs.ts';
import type { Item, Transcription } from './transcription.ts';

/**
 * Diplomatic text: only what stands on the object. Supplied letters become gaps, expansions are left out, doubtful letters
 * are not told apart.
 */
export function diplomatic(transcription: Pick<Transcription, 'items'>): string {
  let out = '';
  let missing = 0;
  const close = (): void => {
    if (missing > 0) out += `[${'.'.repeat(missing)}]`;
    missing = 0;
  };
  for (const item of transcription.items) {
    if ((item.kind === 'letter' || item.kind === 'sign') && item.state === 'supplied') {
      missing++;
      continue;
    }
    if (item.kind === 'gap' && item.reason === 'lost' && item.quantity !== null && !item.about) {
      missing += item.quantity;
      continue;
    }
    if (item.kind === 'expansion' || (item.kind === 'letter' && item.state === 'omitted')) continue;
    close();
    out += plainOf(item);
  }
  close();
  return out;
}

function plainOf(item: Item): string {
  if (item.kind === 'letter' || item.kind === 'mark') return item.text;
  if (item.kind === 'sign') return signs[item.name].glyph;
  if (item.kind === 'space') return ' ';
  if (item.kind === 'line') return ' | ';
  if (item.kind !== 'gap') return '';
  const size = item.quantity === null ? '---' : item.about ? `c. ${item.quantity}` : '.'.repeat(item.quantity);
  return item.reason === 'lost' ? `[${size}]` : size;
}

/**
 * Expanded text, for reading and searching: every word in full, lower case, without editorial marks; letters cut too often are
 * left out, letters left out are put in. What nobody can supply stays as an ellipsis.
 */
export function expanded(transcription: Pick<Transcription, 'items'>): string {
  let out = '';
  for (const item of transcription.items) {
    if (item.kind === 'letter' && item.state !== 'superfluous') out += item.text.toLowerCase();
    if (item.kind === 'expansion') out += item.text?.toLowerCase() ?? '…';
    if (item.kind === 'gap') out += '…';
    if (item.kind === 'space' || item.kind === 'sign' || item.kind === 'line') out += ' ';
  }
  return out.replace(/\s+/g, ' ').replace(/…+/g, '…').trim();
}
