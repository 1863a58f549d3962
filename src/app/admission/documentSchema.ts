import * as z from 'zod';
import type { ZoneName } from '../../core/design/index.ts';
import type { Sense } from '../../core/face/index.ts';
import type { FitStart, ModelName } from '../../core/fit/index.ts';
import type { GroundCode } from '../../core/report/index.ts';
import { kinds, units } from '../../core/scan/index.ts';
import {
  type Dates,
  type Document,
  emptyDocument,
  type Look,
  looks,
  noDates,
  type PlateView,
  restingCamera,
  restingView,
  upperLeft,
} from '../state/document.ts';
import { allOf, count, degrees, id, line, mm, outline, positiveMm, share, text, vec2 } from './parts.ts';
import { readSchema } from './readSchema.ts';

export const mostScans = 64;

export const zoneSchema = allOf<ZoneName>()(['legend', 'field', 'motif', 'border', 'whole']);
export const modelSchema = allOf<ModelName>()(['rigid', 'oneScale', 'smoothWarp']);
export const senseSchema = allOf<Sense>()(['intaglio', 'relief']);

const statedSchema = z.object({
  unit: z.enum(units).exactOptional(),
  pixelSize: z.number().positive().exactOptional(),
  heightStep: z.number().positive().exactOptional(),
  kind: z.enum(kinds).exactOptional(),
  material: line.exactOptional(),
  scaleUncertaintyPercent: z.number().min(0).max(100).exactOptional(),
  sense: senseSchema.exactOptional(),
  toward: z.tuple([z.number(), z.number(), z.number()]).exactOptional(),
  upDeg: degrees.exactOptional(),
  mirrored: z.boolean().exactOptional(),
  candidate: count.exactOptional(),
});

const scanSchema = z.object({
  id,
  name: line.min(1),
  stated: statedSchema,
  title: line,
  simulated: z.boolean().exactOptional(),
  opening: z.boolean().exactOptional(),
  reduced: z.boolean().exactOptional(),
});

const cameraSchema = z.object({
  x: mm,
  y: mm,
  zoom: z.number().min(0.01).max(1_000),
  tipDeg: degrees,
  swingDeg: degrees,
});
const lampSchema = z.object({ azimuthDeg: degrees, heightDeg: z.number().min(0).max(90) });

/** A field that an earlier version did not have takes its resting value. */
const viewSchema: z.ZodType<PlateView> = z.object({
  look: allOf<Look>()(looks).default(restingView.look),
  engraved: allOf<PlateView['engraved']>()(['asIs', 'asImpression']).default(restingView.engraved),
  camera: cameraSchema.default({ ...restingCamera }),
  lamp: lampSchema.default({ ...upperLeft }),
  divider: share.default(restingView.divider),
  onTop: allOf<PlateView['onTop']>()(['reference', 'subject']).default(restingView.onTop),
  rangeMm: positiveMm.nullable().default(null),
  section: z.tuple([mm, mm, mm, mm]).nullable().default(null),
  outlines: z.boolean().default(restingView.outlines),
  wear: zoneSchema.nullable().default(null),
});

const pairSchema = z.object({ reference: vec2, subject: vec2 });
const startSchema: z.ZodType<FitStart> = z.discriminatedUnion('from', [
  z.object({ from: z.literal('turn'), turnDeg: degrees, scale: z.number().min(0.5).max(2).exactOptional() }),
  z.object({ from: z.literal('pairs'), pairs: z.array(pairSchema).max(200) }),
]);

const groundSchema = allOf<GroundCode>()([
  'places',
  'missing',
  'legend',
  'cells',
  'state',
  'shared',
  'brokenAlike',
  'size',
  'wear',
  'noDesign',
  'overlap',
  'turns',
  'mirrored',
  'struckTwice',
  'noFit',
]);
const ownReading = z.object({ text, by: line, on: line });
const leftOutSchema = z.object({ id, label: line, why: line, by: line, own: z.boolean(), outline });
const dated = id.nullable().default(null);
const datesSchema: z.ZodType<Dates> = z.object({
  earlierId: dated,
  laterId: dated,
  earlierAgainId: dated,
  laterAgainId: dated,
});
const slideSchema = z.object({
  id,
  question: text,
  caption: text,
  view: viewSchema,
  reveals: z.boolean(),
  notes: text.exactOptional(),
  ground: groundSchema.exactOptional(),
  pair: z.tuple([id, id]).exactOptional(),
  dates: z.object({ look: z.enum(['turn', 'pair', 'map']), change: id.exactOptional() }).exactOptional(),
  unnamed: z.boolean().exactOptional(),
});

/** Everything that is kept, undone and saved. */
export const documentSchema: z.ZodType<Document> = z
  .object({
    scans: z.array(scanSchema).max(mostScans),
    referenceId: id.nullable().default(null),
    subjectId: id.nullable().default(null),
    fresh: z.array(id).max(mostScans).default([]),
    compare: z.boolean().default(false),
    model: z.union([modelSchema, z.literal('chosen')]).default('chosen'),
    view: viewSchema.default(restingView),
    marks: z.record(id, z.object({ label: line.exactOptional() })).default({}),
    ownMarks: z
      .array(z.object({ id, label: line, outline }))
      .max(500)
      .default([]),
    leftOut: z.array(leftOutSchema).max(500).default([]),
    pairs: z
      .array(z.object({ id, reference: vec2.nullable(), subject: vec2.nullable() }))
      .max(200)
      .default([]),
    start: startSchema.nullable().default(null),
    landmarks: z.array(vec2).max(2_000).nullable().default(null),
    firstReading: ownReading.nullable().default(null),
    conclusion: ownReading.nullable().default(null),
    findingOpen: z.boolean().default(false),
    slides: z.array(slideSchema).max(500).default([]),
    read: readSchema.default(emptyDocument.read),
    dates: datesSchema.default(noDates),
  })
  .refine(({ scans }) => new Set(scans.map((scan) => scan.id)).size === scans.length, {
    path: ['scans'],
    message: 'two scans have the same name inside',
  })
  .transform((document) => ({
    ...document,
    referenceId: known(document, document.referenceId),
    subjectId: document.subjectId === document.referenceId ? null : known(document, document.subjectId),
    dates: {
      earlierId: known(document, document.dates.earlierId),
      laterId: known(document, document.dates.laterId),
      earlierAgainId: known(document, document.dates.earlierAgainId),
      laterAgainId: known(document, document.dates.laterAgainId),
    },
  }));

const known = ({ scans }: { scans: readonly { id: string }[] }, id: string | null): string | null =>
  scans.some((scan) => scan.id === id) ? id : null;
