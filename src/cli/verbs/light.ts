import { prepareScan } from '../../core/pipeline.ts';
import { applyLook, type LightOptions, lampsRound, lightPrepared, prepareLight } from '../../core/read/index.ts';
import { pictureWords } from '../../core/report/words/index.ts';
import { UsageError } from '../errors.ts';
import { scanInput } from '../files.ts';
import { statedLamp, statedSoft, statedView } from '../lighting.ts';
import { lookFrom, lookOption } from '../looks.ts';
import { namedFiles, numberFrom, readingOptions, type Values } from '../options.ts';
import { planOutputs } from '../output/outputs.ts';
import { numbered, pngOf } from '../pictures.ts';
import { isPrinted, printingOptions, printScans } from '../printing.ts';
import { watchOnTerminal } from '../progress.ts';
import { say } from '../say.ts';
import type { Verb } from '../verb.ts';

const text = (value: string | boolean | undefined): string | undefined =>
  typeof value === 'string' ? value : undefined;

/** Size and noise do not matter to a picture. */
const notForLight = ['repeat', 'material', 'scale-uncertainty'];

export const light: Verb = {
  name: 'light',
  usage: 'SCAN… [--from AZIMUTH,HEIGHT] --out PNG',
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
    {
      name: 'soft',
      type: 'string',
      value: 'SHARE',
      help: 'share of even light from the whole sky, 0 to 1; on a plate for print 0.2 where a lamp or shadows are stated',
    },
    { name: 'shadows', type: 'boolean', help: 'high parts throw shadows' },
    {
      name: 'sweep',
      type: 'string',
      value: 'COUNT',
      help: 'so many pictures with the lamp going once round, from --from on: PNG-001.png …',
    },
    lookOption,
    ...printingOptions,
    ...readingOptions.filter(({ name }) => !notForLight.includes(name)),
  ],
  async run(positionals, values) {
    if (isPrinted(values)) return printScans(positionals, values);
    if (positionals.length !== 1)
      throw new UsageError('light takes one scan file; several go on one plate with --print-scale.');
    const out = text(values.out);
    if (!out) throw new UsageError('say where the picture goes: --out PNG.');
    const named = text(values.look);
    const look = named === undefined ? undefined : lookFrom(named);
    const lamp = ['from', 'soft', 'shadows', 'sweep'].find((name) => values[name] !== undefined);
    if (look && lamp) throw new UsageError(`--look brings its own light; leave out --${lamp}.`);
    const view = statedView(values) ?? 'asItIs';
    const lamps = lampsFrom(values);
    const options = lightOptions(values);
    const watch = watchOnTerminal();
    const paths = lamps.length === 1 ? [out] : lamps.map((_, k) => numbered(out, k + 1));
    const outputs = planOutputs({ files: paths, inputs: [...positionals, ...namedFiles(values)] });
    const { face } = await prepareScan(scanInput(positionals[0], values), watch);
    watch.done();
    const written = (caption: string, files: string): void => say(`${positionals[0]}: ${caption}${files}`);
    if (look) {
      const picture = applyLook(face.detail, look, { view, sense: face.sense });
      outputs.file(out, pngOf(picture));
      await outputs.write();
      written(pictureWords(picture.shown), '');
      return;
    }
    const prepared = prepareLight(face.detail, { ...options, view, sense: face.sense });
    const captions = lamps.map((lamp, k) => {
      const picture = lightPrepared(prepared, [lamp]);
      outputs.file(paths[k], pngOf(picture));
      return pictureWords(picture.shown);
    });
    await outputs.write();
    captions.forEach((caption, k) => {
      written(caption, lamps.length === 1 ? '' : ` ${paths[k]}`);
    });
  },
};

function lampsFrom(values: Values) {
  const { azimuthDeg, heightDeg } = statedLamp(values) ?? { azimuthDeg: 315, heightDeg: 25 };
  const count = numberFrom(text(values.sweep), '--sweep') ?? 1;
  if (!Number.isInteger(count) || count < 1 || count > 720)
    throw new UsageError('--sweep takes a whole number from 1 to 720.');
  return lampsRound(count, heightDeg, azimuthDeg);
}

function lightOptions(values: Values): LightOptions {
  return { soft: statedSoft(values) ?? 0, castShadows: values.shadows === true };
}
