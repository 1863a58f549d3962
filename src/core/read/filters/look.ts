import * as z from 'zod';

/**
 * A look: a list of steps that turn relief into one grey picture. Relief steps change the heights that the later steps
 * see; picture steps draw them and are laid over the picture so far. Written as JSON; all sizes in mm, angles in
 * degrees (azimuth clockwise from the top of the picture, 315 = upper left).
 */
const size = z.number().positive();
const degree = z.number();

/** How a picture step is laid over the picture so far; `share` 0 leaves it as it was, 1 takes the new one fully. */
const blend = {
  over: z.enum(['replace', 'mix', 'multiply', 'lighten', 'darken']).default('mix'),
  share: z.number().min(0).max(1).default(1),
};

const lamp = z.strictObject({
  azimuthDeg: degree,
  heightDeg: z.number().min(0).max(90),
  strength: z.number().positive().optional(),
});

export const lookStep = z.discriminatedUnion('do', [
  z.strictObject({ do: z.literal('fromStart') }),
  z.strictObject({ do: z.literal('removeForm'), order: z.union([z.literal(1), z.literal(2)]) }),
  z.strictObject({ do: z.literal('formRemoved'), wavelengthMm: size }),
  z.strictObject({ do: z.literal('smooth'), wavelengthMm: size }),
  z.strictObject({ do: z.literal('bandPass'), fromMm: z.number().min(0), toMm: size }),
  z.strictObject({ do: z.literal('edgeAwareBase'), sizeMm: size, edgeMm: size }),
  z.strictObject({ do: z.literal('edgeAwareDetail'), sizeMm: size, edgeMm: size }),
  z.strictObject({
    do: z.literal('localHeight'),
    meanMm: size,
    sizeMm: size.optional(),
    floor: z.number().min(0).optional(),
    /** Height shown for one local standard deviation, mm, so that shading steps can follow. */
    asMm: size.default(0.05),
  }),
  z.strictObject({ do: z.literal('exaggerate'), factor: z.number().positive() }),
  z.strictObject({
    do: z.literal('light'),
    lamps: z.array(lamp).min(1),
    castShadows: z.boolean().optional(),
    soft: z.number().min(0).max(1).optional(),
    softRadiusMm: size.optional(),
    ...blend,
  }),
  z.strictObject({
    do: z.literal('lightAcross'),
    strokeMm: size.optional(),
    heightDeg: z.number().min(1).max(90).optional(),
    middleAzimuthDeg: degree.optional(),
    ...blend,
  }),
  z.strictObject({ do: z.literal('skyView'), radiusMm: size, ...blend }),
  z.strictObject({ do: z.literal('openness'), radiusMm: size, ...blend }),
  z.strictObject({
    do: z.literal('curvature'),
    scaleMm: size,
    show: z.enum(['ridges', 'valleys', 'both']).default('both'),
    ...blend,
  }),
  z.strictObject({ do: z.literal('heights'), lowMm: z.number().optional(), highMm: z.number().optional(), ...blend }),
  z.strictObject({
    do: z.literal('principalShading'),
    component: z.union([z.literal(1), z.literal(2), z.literal(3)]).default(1),
    heightDeg: z.number().min(1).max(90).optional(),
    ...blend,
  }),
  z.strictObject({
    do: z.literal('exaggeratedShading'),
    lamp: lamp.optional(),
    finestMm: size.optional(),
    scales: z.number().int().min(1).max(8).optional(),
    contrast: z.number().positive().optional(),
    balance: z.number().optional(),
    ...blend,
  }),
]);

export const lookSchema = z.strictObject({
  name: z.string().min(1),
  steps: z.array(lookStep).min(1),
});

/** As written in a file: fields with defaults may be left out. */
export type LookInput = z.input<typeof lookSchema>;
export type Look = z.output<typeof lookSchema>;
export type LookStep = z.output<typeof lookStep>;

/** Reads a look from parsed JSON. Throws a RangeError that names the step and field that is wrong. */
export function parseLook(json: unknown): Look {
  const result = lookSchema.safeParse(json);
  if (result.success) return result.data;
  const { path, message } = result.error.issues[0];
  throw new RangeError(`The look is not valid at ${path.length > 0 ? path.join('.') : 'its top'}: ${message}.`);
}
