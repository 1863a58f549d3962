import { type Drawing, type DrawnMark, line, words } from '../drawing/index.ts';
import type { Together } from '../record/togetherSchema.ts';

const [width, rowHeight, margin] = [720, 46, 12];

/**
 * The partial order of states as it is drawn: earlier objects to the left, an arrow for each step that marks allow with
 * their names on it, objects of which nothing is known apart below. The reference is the last of `names`. Null where
 * the marks allow no step.
 */
export function orderDrawing(together: Together, names: readonly string[]): Drawing | null {
  const steps = stepsOf(together, names.length - 1);
  if (steps.length === 0) return null;
  const column = columnsOf(steps, names.length);
  const placed = names.map((_, k) => steps.some(({ from, to }) => from === k || to === k));
  const last = Math.max(...column);
  const rows = new Map<number, number>();
  const at = names.map((_, k): [number, number] => {
    const row = rows.get(placed[k] ? column[k] : -1) ?? 0;
    rows.set(placed[k] ? column[k] : -1, row + 1);
    const x = margin + 80 + ((width - 2 * margin - 160) * column[k]) / Math.max(1, last);
    return [x, margin + rowHeight * (row + 0.5)];
  });
  const height = 2 * margin + rowHeight * Math.max(...[...rows].filter(([c]) => c >= 0).map(([, count]) => count));
  const marks: DrawnMark[] = [];
  for (const { from, to, marks: named } of steps) {
    // Over what stands between them in one row, and not through it.
    const over = at[from][1] === at[to][1] && Math.abs(column[to] - column[from]) > 1;
    marks.push(...(over ? bow : arrow)(at[from], at[to], named.join(', ')));
  }
  names.forEach((name, k) => {
    if (placed[k]) marks.push(words(at[k][0], at[k][1] + 4, short(name), 12, 'ink', { align: 'middle', rim: 'paper' }));
  });
  const said = steps.map(({ from, to }) => `${names[from]} before ${names[to]}`).join('; ');
  return { width, height, title: `Order of states, earlier to the left: ${said}`, marks };
}

interface Step {
  readonly from: number;
  readonly to: number;
  readonly marks: readonly string[];
}

/** Steps between subjects, and between each subject and the reference, which is `reference` in the list. */
function stepsOf({ order, againstReference = [] }: Together, reference: number): Step[] {
  return [
    ...order.map(({ earlier, later, marks }) => ({ from: earlier, to: later, marks })),
    ...againstReference.flatMap(({ subject, reading, marks }): Step[] => {
      if (reading === 'subjectEarlier') return [{ from: subject, to: reference, marks }];
      return reading === 'subjectLater' ? [{ from: reference, to: subject, marks }] : [];
    }),
  ];
}

/** Each object's column: one more than the greatest of those before it. Steps of a cycle are left where they are. */
function columnsOf(steps: readonly Step[], count: number): number[] {
  const column = new Array<number>(count).fill(0);
  for (let round = 0; round < count; round++)
    for (const { from, to } of steps)
      if (column[to] <= column[from] && column[from] < count) column[to] = column[from] + 1;
  return column;
}

function arrow([x0, y0]: readonly [number, number], [x1, y1]: readonly [number, number], named: string): DrawnMark[] {
  const length = Math.hypot(x1 - x0, y1 - y0) || 1;
  const [ux, uy] = [(x1 - x0) / length, (y1 - y0) / length];
  const room = Math.min(76, 0.3 * length);
  const [ax, ay, bx, by] = [x0 + room * ux, y0 + room * uy, x1 - room * ux, y1 - room * uy];
  const head = (side: number): [number, number] => [bx - 8 * ux - 4 * side * uy, by - 8 * uy + 4 * side * ux];
  const [p, q] = [head(1), head(-1)];
  return [
    line([ax, ay, bx, by], 'soft', 0.9),
    line([...p, bx, by, ...q], 'soft', 0.9),
    words((ax + bx) / 2, (ay + by) / 2 - 5, named, 10, 'accent', { align: 'middle', rim: 'paper' }),
  ];
}

/** An arrow bent upward, from above the one name to above the other. */
function bow([x0, y0]: readonly [number, number], [x1, y1]: readonly [number, number], named: string): DrawnMark[] {
  const [lift, parts] = [20, 24];
  const way = Array.from({ length: parts + 1 }, (_, i) => {
    const t = i / parts;
    return [x0 + t * (x1 - x0), (1 - t) * y0 + t * y1 - 9 - 4 * t * (1 - t) * (lift - 9)];
  });
  const [[px, py], [bx, by]] = [way[parts - 1], way[parts]];
  const length = Math.hypot(bx - px, by - py) || 1;
  const [ux, uy] = [(bx - px) / length, (by - py) / length];
  const head = (side: number): [number, number] => [bx - 8 * ux - 4 * side * uy, by - 8 * uy + 4 * side * ux];
  return [
    line(way.flat(), 'soft', 0.9),
    line([...head(1), bx, by, ...head(-1)], 'soft', 0.9),
    words((x0 + x1) / 2, Math.min(y0, y1) - lift - 4, named, 10, 'accent', { align: 'middle', rim: 'paper' }),
  ];
}

/** A file's name without its ending, cut where it is long. */
const short = (name: string): string => {
  const stem = name.replace(/\.[^.]+$/, '');
  return stem.length > 26 ? `${stem.slice(0, 25)}…` : stem;
};
