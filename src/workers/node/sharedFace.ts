import { gridOn, type HeightGrid } from '../../core/geometry/index.ts';
import type { FoundScan } from '../../core/pipeline.ts';

/** The scan with the grids of its face in memory that every thread sees: a face is asked about several times, and goes to the other thread without a copy. */
export function withSharedFace({ face, ...rest }: FoundScan): FoundScan {
  const known = new Map<Cells, Cells>();
  const seen = <Kind extends Cells>(cells: Kind): Kind => {
    const shared = (known.get(cells) as Kind | undefined) ?? inSharedMemory(cells);
    known.set(cells, shared);
    return shared;
  };
  const shared = (grid: HeightGrid): HeightGrid => gridOn(grid, seen(grid.z), seen(grid.mask));
  const [relief, detail, image] = [face.relief, face.detail, face.image].map(shared);
  return { ...rest, face: { ...face, relief, detail, image, ...(face.fine && { fine: shared(face.fine) }) } };
}

type Cells = Float32Array | Uint8Array;

function inSharedMemory<Kind extends Cells>(cells: Kind): Kind {
  const memory = new SharedArrayBuffer(cells.byteLength);
  const shared = cells instanceof Float32Array ? new Float32Array(memory) : new Uint8Array(memory);
  shared.set(cells);
  return shared as Kind;
}
