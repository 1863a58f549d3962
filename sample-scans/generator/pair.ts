import { chanceFor, subSeed } from './chance.ts';
import type { Design } from './design.ts';
import type { HandOf } from './hands.ts';
import type { Made } from './made.ts';
import { objectsOf } from './objects.ts';
import { anyStyle, asFile, type Scanned, scanFaults, scanObject } from './scanned.ts';
import { trueDifferences, trueSimilarity } from './trueFit.ts';
import { truthOf } from './truth.ts';
import type { GeneratedPair, Recipe } from './types.ts';

/** Both objects of a pair as they were made and scanned, before they are written down. */
export function scannedPair(recipe: Recipe, handOf: HandOf) {
  const objects = objectsOf(recipe, handOf, pitchFor(recipe));
  const reference = scanRole(recipe, 'reference', objects.reference, objects.referenceDesign);
  const subject = scanRole(recipe, 'subject', objects.subject, objects.subjectDesign);
  return { objects, reference, subject };
}

/** A reference, a subject, and all that is true of them. Deterministic in the recipe. */
export function makePair(recipe: Recipe, handOf: HandOf): GeneratedPair {
  const { objects, reference: a, subject: b } = scannedPair(recipe, handOf);
  const oneFace = !['handCopy', 'stockMotif', 'unrelated'].includes(recipe.relation);
  const similarity = oneFace ? trueSimilarity(a, b) : null;
  const trueDifference = similarity ? trueDifferences(a, b, similarity) : undefined;
  return {
    recipe,
    reference: asFile(a, recipe.referenceUnit, recipe.reversedWinding && recipe.seed % 2 === 0),
    subject: { ...asFile(b, recipe.subjectUnit, recipe.reversedWinding), trueDifference },
    truth: truthOf(recipe, a, b, similarity, objects.dieMarks),
  };
}

/** Cell of the height field: finer than the scan's points, within what the smallest strokes need. */
function pitchFor(recipe: Recipe): number {
  const spacing = Math.sqrt((0.7 * recipe.sizeMm ** 2) / recipe.vertices);
  return Math.max(recipe.sizeMm / 1400, Math.min(Math.max(0.07, recipe.sizeMm / 650), 0.6 * spacing));
}

function scanRole(recipe: Recipe, role: 'reference' | 'subject', made: Made, design: Design): Scanned {
  const random = chanceFor(recipe.seed, `${role} scan`);
  const isSubject = role === 'subject';
  const soft = made.kind !== 'matrix';
  const whole = (isSubject ? recipe.wholeSubject : recipe.wholeReference) ?? recipe.whole;
  const around = whole ? recipe.lipMm + random.between(1, 5) : recipe.lipMm * random.next();
  const metal = random.between(0, 0.6);
  const handle = random.pick(['cone', 'fin', 'fin', 'none'] as const);
  const choice = {
    coverage: isSubject ? recipe.coverage : 1,
    warpMm: soft ? recipe.warpMm * (isSubject ? 1 : 0.5) : 0,
    whole,
    marginMm: soft ? around : metal,
    vertices: recipe.vertices,
    style: anyStyle(random),
    handle: soft ? ('none' as const) : handle,
    table: whole && random.next() < 0.25 * recipe.clutter,
    offsetMm: recipe.offsetMm,
    mirrored: isSubject && recipe.mirrored,
    faults: scanFaults(recipe.clutter, recipe.noiseMm, recipe.sizeMm, random),
  };
  return scanObject(made, design, choice, subSeed(recipe.seed, role));
}
