import { wearLabel } from '../wear/labels.ts';
import { labelAt, type SubjectFindings } from './joinMarks.ts';

/** Share of a composite that a subject would give, 0 to 1. */
export interface Contribution {
  readonly subject: number;
  readonly fraction: number;
}

/** Share of the first fitted subject's map that each subject would give to a composite. */
export function composite(subjects: readonly SubjectFindings[]): Contribution[] {
  const base = subjects.find(({ fitted }) => fitted)?.wearMap;
  if (!base) return subjects.map((_, subject) => ({ subject, fraction: 0 }));
  const count = new Float64Array(subjects.length);
  let all = 0;
  for (let row = 0; row < base.height; row++)
    for (let col = 0; col < base.width; col++) {
      if (!base.labels[row * base.width + col]) continue;
      all++;
      const [x, y] = [base.left + col * base.pitch, base.top - row * base.pitch];
      const ranks = subjects.map(({ fitted, wearMap }) => (fitted ? rank(labelAt(wearMap, x, y)) : 0));
      const best = ranks.indexOf(Math.max(...ranks));
      if (ranks[best] > 0) count[best]++;
    }
  return subjects.map((_, subject) => ({ subject, fraction: all > 0 ? count[subject] / all : 0 }));
}

/** How good a surface with this label is for reading: sound, soft or worn, none. */
function rank(label: number): number {
  if (label === wearLabel('sharp')) return 3;
  if (label === 0 || label === wearLabel('lost') || label === wearLabel('cannotJudge')) return 0;
  return label === wearLabel('added') ? 1 : 2;
}
