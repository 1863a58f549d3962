import { type Lamp, type View, views } from '../core/read/index.ts';
import { UsageError } from './errors.ts';
import { numbersFrom } from './options.ts';

type Values = Record<string, string | boolean | undefined>;

const textOf = (value: string | boolean | undefined): string | undefined =>
  typeof value === 'string' ? value : undefined;

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
