import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { encode } from 'fast-png';
import { prepareScan } from '../../core/pipeline.ts';
import { type LitPicture, lampsRound, light as lightGrid, type View, views } from '../../core/read/index.ts';
import { UsageError } from '../errors.ts';
import { scanInput } from '../files.ts';
import { numberFrom, numbersFrom, readingOptions } from '../options.ts';
import { watchOnTerminal } from '../progress.ts';
import type { Verb } from '../verb.ts';

type Values = Record<string, string | boolean | undefined>;
const text = (value: string | boolean | undefined): string | undefined =>
  typeof value === 'string' ? value : undefined;

export const light: Verb = {
  name: 'light',
  usage: 'SCAN --from AZIMUTH,HEIGHT --out PNG',
  does: 'The face under light, without a GPU. Azimuth clockwise from the top of the picture, height above the face plane.',
  options: [
    { name: 'from', type: 'string', value: 'AZIMUTH,HEIGHT', help: 'the lamp, degrees (315,25 where not stated)' },
    { name: 'out', type: 'string', value: 'PNG', help: 'the picture' },
    {
      name: 'view',
      type: 'string',
      value: 'asItIs|mirrored|turnedOver',
      help: 'turnedOver shows a matrix as its impression',
    },
    { name: 'soft', type: 'string', value: 'SHARE', help: 'share of even light from the whole sky, 0 to 1' },
    { name: 'shadows', type: 'boolean', help: 'high parts throw shadows' },
    {
      name: 'sweep',
      type: 'string',
      value: 'COUNT',
      help: 'so many pictures with the lamp going round: PNG-001.png …',
    },
    ...readingOptions,
  ],
  async run(positionals, values) {
    if (positionals.length !== 1) throw new UsageError('light takes one scan file.');
    const out = text(values.out);
    if (!out) throw new UsageError('say where the picture goes: --out PNG.');
    const [azimuthDeg, heightDeg] = numbersFrom(text(values.from), 2, '--from') ?? [315, 25];
    if (heightDeg <= 0 || heightDeg > 90)
      throw new UsageError(`--from ${values.from}: the height lies above 0 and up to 90°.`);
    const options = lightOptions(values);
    const sweep = numberFrom(text(values.sweep), '--sweep') ?? 1;
    if (!Number.isInteger(sweep) || sweep < 1 || sweep > 720)
      throw new UsageError('--sweep takes a whole number from 1 to 720.');
    const watch = watchOnTerminal();
    const { face } = await prepareScan(scanInput(positionals[0], values), watch);
    watch.done();
    mkdirSync(dirname(out), { recursive: true });
    lampsRound(sweep, heightDeg, azimuthDeg).forEach((lamp, k) => {
      const picture = lightGrid(face.detail, [lamp], { ...options, sense: face.sense });
      writeFileSync(sweep === 1 ? out : numbered(out, k + 1), pngOf(picture));
      if (k === 0) process.stdout.write(`${positionals[0]}: ${picture.caption}\n`);
    });
  },
};

function lightOptions(values: Values) {
  const view = text(values.view) ?? 'asItIs';
  if (!(views as readonly string[]).includes(view))
    throw new UsageError(`--view ${view}: choose one of ${views.join(', ')}.`);
  const soft = numberFrom(text(values.soft), '--soft') ?? 0;
  if (soft < 0 || soft > 1) throw new UsageError('--soft takes a share from 0 to 1.');
  return { view: view as View, soft, castShadows: values.shadows === true };
}

const numbered = (path: string, k: number): string => path.replace(/(\.png)?$/i, `-${String(k).padStart(3, '0')}.png`);

/** Grey PNG; the caption with its angles goes into the file as text. */
export function pngOf({ width, height, grey, caption }: LitPicture): Uint8Array {
  const data = new Uint8Array(grey.buffer, grey.byteOffset, grey.length);
  return encode({
    width,
    height,
    data,
    channels: 1,
    depth: 8,
    text: { Description: caption.replaceAll('°', ' degrees') },
  });
}
