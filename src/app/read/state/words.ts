import { type Item, type SealPlace, signs } from '../../../core/read/index.ts';
import { number } from '../../look/numbers.ts';

const quarters = ['', '¼', '½', '¾'] as const;

/** Degrees clockwise from 12 o'clock as a clock hour, to the quarter: 112° is "3¾ o’clock". */
export function clockWords(deg: number): string {
  const quarter = Math.round((((deg % 360) + 360) % 360) / 7.5) % 48;
  const hour = Math.floor(quarter / 4);
  return `${hour === 0 ? 12 : hour}${quarters[quarter % 4]} o’clock`;
}

/** A place as it is printed under the strip. */
export const placeWords = ({ deg, alongMm }: Pick<SealPlace, 'deg' | 'alongMm'>): string =>
  `${number(deg, 0)}°, ${clockWords(deg)}; ${number(alongMm, 1)} mm along`;

/** What stands under the strip for an item; empty for what only parts words. */
export function glyphOf(item: Item): string {
  switch (item.kind) {
    case 'letter':
      return bracketed(item.text, item.state);
    case 'sign':
      return bracketed(signs[item.name].glyph, item.state);
    case 'mark':
      return item.text;
    case 'gap': {
      const inside = item.quantity === null ? '–' : '.'.repeat(item.quantity);
      return item.reason === 'lost' ? `[${inside}]` : inside;
    }
    default:
      return '';
  }
}

function bracketed(text: string, state: string): string {
  if (state === 'supplied') return `[${text}]`;
  if (state === 'omitted') return `‹${text}›`;
  return state === 'superfluous' ? `{${text}}` : text;
}

/** An item in words, for the margin. */
export function itemWords(item: Item | undefined): string {
  if (!item) return 'Nothing stands before the pen.';
  switch (item.kind) {
    case 'letter':
      return `Letter ${item.text}`;
    case 'sign':
      return `Sign: ${signs[item.name].words}`;
    case 'gap':
      return item.reason === 'lost' ? `Lost: ${gapWords(item)}` : `Traces: ${gapWords(item)}`;
    case 'expansion':
      return item.text === null ? 'Abbreviation, unsolved' : `Stands for: ${item.text}`;
    case 'mark':
      return 'Mark of abbreviation';
    case 'space':
      return 'Space between words';
    case 'line':
      return 'The next ring begins';
  }
}

function gapWords({ quantity, about }: { quantity: number | null; about?: true }): string {
  if (quantity === null) return 'an unknown number of letters';
  return `${about ? 'about ' : ''}${quantity} letter${quantity === 1 ? '' : 's'}`;
}
