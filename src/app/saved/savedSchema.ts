import * as z from 'zod';
import type { OutlineShape } from '../../core/face/index.ts';
import { type Kind, kinds, type UnitFrom, units } from '../../core/scan/index.ts';
import type { FaceView } from '../../workers/browser/protocol.ts';
import { documentSchema, mostScans, senseSchema } from '../admission/documentSchema.ts';
import { allOf, count, id, line, mm, perhaps, positiveMm, share, text } from '../admission/parts.ts';
import { storedGrid } from './grids.ts';
import { savedSchemaName } from './versions.ts';

const shape = allOf<OutlineShape>()(['round', 'oval', 'pointedOval', 'shield', 'square', 'irregular']);
const flat = (most: number) => z.object({ floats: z.array(mm).min(2).max(most) }).transform(({ floats }) => floats);
const repairs: z.ZodType<FaceView['repairs']> = z.object({
  ...{ notANumber: count, cornerNotANumber: count, degenerate: count, duplicate: count, unreferenced: count },
  ...{ welded: count, flipped: count, strayPieces: count, strayTriangles: count },
});

const faceSchema = z.object({
  name: line,
  format: line,
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  kind: z.enum(kinds satisfies readonly Kind[]),
  kindFrom: z.enum(['stated', 'assumed']),
  sense: senseSchema,
  senseConfidence: share,
  unit: z.enum(units),
  unitFrom: allOf<UnitFrom>()(['stated', 'file', 'assumed']),
  vertices: count,
  triangles: count,
  repairs,
  outline: z.object({ shape, widthMm: positiveMm, heightMm: positiveMm, polygon: flat(8_000), confidence: perhaps }),
  noiseMm: z.number().min(0).max(100),
  filled: perhaps,
  holes: count,
  upFrom: line,
  upright: z.object({ turnDeg: z.number().min(-360).max(360), from: z.enum(['motif', 'cross']) }).exactOptional(),
  candidates: z
    .array(
      z.object({
        outward: z.tuple([z.number(), z.number(), z.number()]),
        areaMm2: perhaps,
        detailMm: perhaps,
        score: perhaps,
      }),
    )
    .max(50),
  candidate: count,
  rim: flat(20_000),
  /** Which of the file's meshes carries it. */
  mesh: count,
  relief: storedGrid,
});
export type StoredFace = z.output<typeof faceSchema>;

/**
 * A saved comparison: inputs and choices. The results lie beside as a block with a name of its own, admitted apart, so that
 * results of another version cost the results and not the file.
 */
export const savedSchema = z.object({
  schema: z.literal(savedSchemaName),
  document: documentSchema,
  faces: z.record(id, faceSchema).refine((faces) => Object.keys(faces).length <= mostScans, { message: 'too many' }),
  results: z.unknown(),
  detail: z.enum(['reduced', 'full']),
  reason: text.default(''),
});

/** The parts of a glTF file that carry the surfaces: what is used of them, and no more. */
export const gltfSchema = z.object({
  bufferViews: z
    .array(z.object({ byteOffset: count.default(0), byteLength: count }))
    .max(2_000)
    .default([]),
  accessors: z
    .array(z.object({ bufferView: count, count }))
    .max(1_000)
    .default([]),
  meshes: z
    .array(
      z.object({
        primitives: z
          .array(z.object({ attributes: z.object({ POSITION: count }), indices: count }))
          .min(1)
          .max(8),
      }),
    )
    .max(200)
    .default([]),
});
export type Gltf = z.output<typeof gltfSchema>;
