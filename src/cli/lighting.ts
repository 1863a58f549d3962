import { type Lamp, type View, views } from '../core/read/index.ts';
import { UsageError } from './errors.ts';
import { numberFrom, numbersFrom, textOf, type Values } from './options.ts';

/** `--view`, where it was stated. */
export function statedView(values: Values): View | undefined {
  const view = textOf(values.view);
  if (view !== undefined && !(views as readonly string[]).includes(view))
    throw new UsageError(`--view ${view}: choose one of ${views.join(', ')}.`);
  return view as View | undefined;
}

/** `--from`, where it was stated. */
export function statedLamp(values: Values): Lamp | undefined {
  const from = numbersFrom(textOf(values.from), 2, '--from');
  if (!from) return undefined;
  const [azimuthDeg, heightDeg] = from;
  if (heightDeg <= 0 || heightDeg > 90)
    throw new UsageError(`--from ${values.from}: the height lies above 0 and up to 90°.`);
  return { azimuthDeg, heightDeg };
}

/** `--soft`, where it was stated. */
export function statedSoft(values: Values): number | undefined {
  const soft = numberFrom(textOf(values.soft), '--soft');
  if (soft !== undefined && (soft < 0 || soft > 1)) throw new UsageError('--soft takes a share from 0 to 1.');
  return soft;
}
