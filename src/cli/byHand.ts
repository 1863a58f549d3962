import * as z from 'zod';
import type { ExcludedRegion } from '../core/face/index.ts';
import type { FitStart } from '../core/fit/index.ts';
import { apply, type Vec2 } from '../core/geometry/index.ts';
import type { Landmark } from '../core/judge/index.ts';
import type { Given, PreparedScan } from '../core/pipeline.ts';
import { mmPer } from '../core/scan/index.ts';
import { UsageError } from './errors.ts';
import { readJson } from './files.ts';
import { numberFrom, type Values } from './options.ts';

/** x, y in the face frame in mm, or x, y, z in the file's own coordinates and unit. */
const place = z.union([z.tuple([z.number(), z.number()]), z.tuple([z.number(), z.number(), z.number()])]);
const pairsFile = z.looseObject({ pairs: z.array(z.looseObject({ reference: place, subject: place })).min(2) });

const corner = z.tuple([z.number(), z.number()]);
const regionsFile = z.looseObject({
  regions: z.array(
    z.looseObject({ outline: z.array(corner).min(3), why: z.string().default(''), by: z.string().default('') }),
  ),
});

const landmarksFile = z.looseObject({ landmarks: z.array(corner).min(8) });

type Place = z.infer<typeof place>;
type Pairs = z.infer<typeof pairsFile>['pairs'];
/** What the user puts by hand: read and checked before any scan is, laid on the faces when they are there. */
export function givenByHand(values: Values): (reference: PreparedScan, subject: PreparedScan) => Given {
  if (values.pairs !== undefined && values.start !== undefined)
    throw new UsageError('--start and --pairs both say where the fit begins; give one of them.');
  const pairs = typeof values.pairs === 'string' ? pairsIn(values.pairs) : undefined;
  const turn = typeof values.start === 'string' ? turnFrom(values.start) : undefined;
  const excluded = typeof values.exclude === 'string' ? regionsIn(values.exclude) : undefined;
  const landmarks = typeof values.landmarks === 'string' ? landmarksIn(values.landmarks) : undefined;
  return (reference, subject) => ({
    start: pairs ? pairsOn(pairs, reference, subject) : turn,
    excluded,
    landmarks,
  });
}

function turnFrom(text: string): FitStart {
  const [turn, scale, ...more] = text.split(',');
  if (more.length > 0) throw new UsageError(`--start ${text}: give TURN or TURN,SCALE.`);
  const turnDeg = numberFrom(turn, '--start') as number;
  return { from: 'turn', turnDeg, ...(scale !== undefined && { scale: numberFrom(scale, '--start') as number }) };
}

function landmarksIn(path: string): Landmark[] {
  const { data, success } = landmarksFile.safeParse(readJson(path, '--landmarks'));
  if (success) return data.landmarks.map(([x, y]) => ({ x, y }));
  throw new UsageError(
    `--landmarks ${path}: give { "landmarks": [[x, y], …] } with eight or more, mm on the reference's face.`,
  );
}

function pairsIn(path: string): Pairs {
  const { data, success } = pairsFile.safeParse(readJson(path, '--pairs'));
  if (success) return data.pairs;
  throw new UsageError(
    `--pairs ${path}: give { "pairs": [{ "reference": [x, y], "subject": [x, y] }, …] } with two pairs or more.`,
  );
}

const pairsOn = (pairs: Pairs, reference: PreparedScan, subject: PreparedScan): FitStart => ({
  from: 'pairs',
  pairs: pairs.map((pair) => ({
    reference: onFace(pair.reference, reference),
    subject: onFace(pair.subject, subject),
  })),
});

function regionsIn(path: string): ExcludedRegion[] {
  const { data, success } = regionsFile.safeParse(readJson(path, '--exclude'));
  if (success) return data.regions;
  throw new UsageError(
    `--exclude ${path}: give { "regions": [{ "outline": [[x, y], …], "why": "…", "by": "…" }, …] } with three corners or more each.`,
  );
}

/** A place of the file on the face's plane, mm; a place in the face frame as it is. */
function onFace(at: Place, { scan, face }: PreparedScan): Vec2 {
  if (at.length === 2) return at;
  const { offset } = scan.mesh;
  const mm = mmPer[scan.unit];
  const [x, y] = apply(face.faceFromScan, [at[0] * mm - offset[0], at[1] * mm - offset[1], at[2] * mm - offset[2]]);
  return [x, y];
}
