import { noneSeenBound, quantileOf, type Row, share } from '../table.ts';
import { compareDates, type Graded, grade } from './grade.ts';
import { type Happening, twoDates } from './twoDates.ts';

/** What is simulated for each seed, and what in turn with every fourth. */
const each: readonly Happening[] = ['none', 'loss', 'thin'];
const inTurn: readonly Happening[] = ['crack', 'grown', 'deposit', 'cleaned'];

/** Vertices of each scan at most: seals of 50 mm then have a point every 0.25 mm. */
const vertices = 40_000;

/** Simulated objects scanned on two dates: what was found of what happened. `say` is told every line. */
export async function changeRows(
  count: number,
  firstSeed: number,
  say: (line: string) => void,
): Promise<{ rows: Row[]; lines: string[] }> {
  const graded: Graded[] = [];
  const lines: string[] = [];
  for (let k = 0; k < count; k++)
    for (const happening of [...each, ...(k % 4 === 0 ? [inTurn[(k / 4) % inTurn.length]] : [])]) {
      const seed = firstSeed + k;
      const two = twoDates(seed, happening, { maxVertices: vertices });
      const one = grade(seed, happening, two, await compareDates(two));
      graded.push({
        ...one,
        found: one.found && { ...one.found, map: empty, least: empty, changed: new Uint8Array(0) },
      });
      lines.push(lineOf(one));
      say(lines[lines.length - 1]);
    }
  return { rows: rowsOf(graded), lines };
}

const empty = { width: 0, height: 0, pitch: 1, left: 0, top: 0, z: new Float32Array(0), mask: new Uint8Array(0) };

function lineOf({ seed, happening, found, hit, falseChanges, volumeErrorMm3, poseMm, truth }: Graded): string {
  if (!found) return `${seed} ${happening}: not judged`;
  const said = hit
    ? `${hit.shape} ${hit.areaMm2.toFixed(1)} mm², ${hit.volumeMm3.toFixed(3)} ± ${hit.volumeSdMm3.toFixed(3)} for ${truth.volumeMm3.toFixed(3)} mm³ (off ${volumeErrorMm3.toFixed(3)}), × ${hit.timesLeast.toFixed(1)}`
    : happening === 'none'
      ? 'nothing happened'
      : 'missed';
  const wrong = falseChanges.map((c) => `${c.direction} ${c.areaMm2.toFixed(1)} mm² × ${c.timesLeast.toFixed(2)}`);
  return `${seed} ${happening}: ${said}${wrong.length > 0 ? `; FALSE ${wrong.join(', ')}` : ''}; cells ${found.noise.pitchMm.toFixed(3)} mm, pose off ${(1000 * poseMm).toFixed(1)} µm`;
}

function rowsOf(graded: readonly Graded[]): Row[] {
  const of = (happening: Happening): Graded[] => graded.filter((one) => one.happening === happening);
  const quiet = of('none');
  const quietOnes = quiet.filter(({ judged, falseChanges }) => judged && falseChanges.length === 0).length;
  const found = (happening: Happening, floor = '–'): Row => {
    const all = of(happening);
    return {
      what: `found: ${names[happening]}`,
      floor,
      measured: share(all.filter(({ hit }) => hit).length, all.length),
    };
  };
  const changed = graded.filter(({ happening }) => happening !== 'none');
  const falsely = changed.filter(({ falseChanges }) => falseChanges.length > 0).length;
  const volumes = [...of('loss'), ...of('thin'), ...of('deposit')].filter(({ hit }) => hit);
  const inside = volumes.filter(({ volumeErrorMm3, hit }) => Math.abs(volumeErrorMm3) < 1.96 * (hit?.volumeSdMm3 ?? 0));
  const relative = volumes.map(({ volumeErrorMm3, truth }) => Math.abs(volumeErrorMm3 / truth.volumeMm3));
  const pose = (list: readonly Graded[], q: number): string =>
    `${(
      1000 *
        quantileOf(
          list.map(({ poseMm }) => poseMm),
          q,
        )
    ).toFixed(1)} µm`;
  return [
    {
      what: 'a second scan of the same date: nothing found',
      floor: '95 %',
      measured: `${share(quietOnes, quiet.length)}${quietOnes === quiet.length ? `; a false one: ${noneSeenBound(quiet.length)}` : ''}`,
    },
    found('loss', '95 %'),
    found('thin', '95 %'),
    ...inTurn.map((happening) => found(happening)),
    {
      what: 'something else found where one thing happened',
      floor: '–',
      measured: share(falsely, changed.length),
    },
    {
      what: 'volume within 1.96 of its own ± (losses, thin losses, deposits)',
      floor: '–',
      measured: `${share(inside.length, volumes.length)}; median error ${(100 * quantileOf(relative, 0.5)).toFixed(0)} %`,
    },
    {
      what: 'pose off along the height, half and nineteen in twenty; a third cleaned by 40 µm, half',
      floor: '–',
      measured: `${pose(graded, 0.5)}, ${pose(graded, 0.95)}; ${pose(of('cleaned'), 0.5)}`,
    },
  ];
}

const names: Readonly<Record<Happening, string>> = {
  none: 'nothing',
  loss: '0.5 mm³ lost on 2 to 9 mm²',
  thin: '30 µm lost over 4 mm²',
  deposit: '30 µm added over 4 mm²',
  crack: 'a new crack, 0.15 to 0.3 mm wide, 4 to 12 mm long',
  grown: 'an old crack grown by half',
  cleaned: 'a third of the face lower by 40 µm',
};
