import { apply, type Similarity, type Vec3 } from '../../geometry/index.ts';

/**
 * A motion between two meshes as a motion between their files. Meshes are centred, position in the file = position +
 * offset, so p_ref = S(p_sub − offset_sub) + offset_ref: scale and rotation stay, and the translation becomes
 * S(−offset_sub) + offset_ref. All in mm, float64.
 */
export function fileMotion(referenceFromSubject: Similarity, referenceOffset: Vec3, subjectOffset: Vec3): Similarity {
  const [ox, oy, oz] = subjectOffset;
  const [x, y, z] = apply(referenceFromSubject, [-ox, -oy, -oz]);
  const [rx, ry, rz] = referenceOffset;
  return { ...referenceFromSubject, translation: [x + rx, y + ry, z + rz] };
}
