import * as Comlink from 'comlink';
import { type BandFace, findLegendBands } from '../../core/design/index.ts';
import { type Face, findFace } from '../../core/face/index.ts';
import { type HeightGrid, removeForm, report, turnGrid, type Watch } from '../../core/geometry/index.ts';
import type { PreparedScan } from '../../core/pipeline.ts';
import {
  applyLook,
  legiblePlaces,
  light,
  type RidgeView,
  readableStrip,
  ridgePicture,
  ridgeSpacingMm,
  ridgeView,
  type Strip,
  strokeContrast,
  unroll,
  viewGrid,
} from '../../core/read/index.ts';
import { makeFragments } from './readingFragments.ts';
import type { ReadingHost } from './readingHost.ts';
import type { FoundBand, ReadingServices, ReadSource, StripOrder } from './readingProtocol.ts';
import { makeStack } from './readingStack.ts';
import { drawn, drawnStrip, inkOf, placesOf } from './readingStrip.ts';

type ReadFace = BandFace & Pick<Face, 'relief' | 'noiseMm'>;

/** The reading room's part of the worker. It keeps the last few strips and backs, so that another look costs only the look. */
export function openReading(host: ReadingHost): ReadingServices {
  const strips = new Kept<Strip>(6);
  const backs = new Kept<RidgeView>(2);
  const stored = new Kept<ReadFace>(4);

  async function faceOf(source: ReadSource, watch: Watch): Promise<ReadFace> {
    if ('scan' in source) return (await host.prepared(source.scan, watch)).face;
    const { key, relief, ...rest } = source.stored;
    return stored.of(key, () => ({ ...rest, relief, detail: removeForm(relief, 2).detail }));
  }
  async function stripOf(source: ReadSource, order: StripOrder, watch: Watch): Promise<Strip> {
    const face = await faceOf(source, watch);
    const key = JSON.stringify([keyOfSource(source), shortOrder(order)]);
    return strips.of(key, () => unroll(face.detail, order.band, order));
  }
  async function backOf(source: ReadSource, watch: Watch): Promise<RidgeView> {
    if (!('scan' in source)) throw new Error('a saved file keeps no back. Bring the scan itself in.');
    const { scan, face } = await host.prepared(source.scan, watch);
    report(watch, 0.3, 'Looking at the back');
    return backs.of(source.scan.key, () => {
      const [, , , , , , x, y, z] = face.faceFromScan.rotation;
      const back = behind(scan.mesh, [-x, -y, -z]);
      return ridgeView(back.relief, back.noiseMm);
    });
  }

  return {
    bands: (source, told) =>
      host.answer(async () => {
        const watch = host.watchOf(told);
        const face = await faceOf(source, watch);
        report(watch, 0.2, 'Looking for the legend');
        const bands = findLegendBands(face);
        return bands.map((band, i): FoundBand => {
          report(watch, 0.6 + (0.4 * i) / bands.length, 'Making out which way the letters stand');
          const { cross, letters, facing, arcs, facingDoubts, startDeg, startsAt } = readableStrip(face.detail, band);
          return { band, letters, facing, arcs, facingDoubts, startDeg, startsAt, crossDeg: cross?.deg ?? null };
        });
      }),
    strip: (source, order, look, told) =>
      host.answer(async () => {
        const watch = host.watchOf(told);
        const strip = await stripOf(source, order, watch);
        const lit = applyLook(strip.grid, look);
        const contrast = {
          shown: strokeContrast(strip, lit),
          plain: strokeContrast(strip, light(strip.grid, [plainLamp], { emptyGrey: 60 })),
        };
        return sent({ contrast, places: placesOf(strip), picture: drawnStrip(strip, lit), ink: inkOf(strip) });
      }),
    face: (source, look, { view, turnDeg }, told) =>
      host.answer(async () => {
        const face = await faceOf(source, host.watchOf(told));
        const { sense } = face;
        const detail = turned(face, turnDeg);
        const shown = viewGrid(detail, view);
        const picture = drawn(shown, applyLook(detail, look, { view, sense }));
        const { pitch, left, top } = shown;
        const seenDeg = (sense === 'intaglio') === (view === 'asItIs') ? -turnDeg : turnDeg;
        return sent({ ...picture, turnDeg: seenDeg, pitch, left, top, view, sense });
      }),
    plate: (objects, { size, look, ...options }, told) =>
      host.answer(async () => {
        const { printedLook, printPlate, printScaleOf } = await import('../../core/report/index.ts');
        const watch = host.watchOf(told);
        const placed = [];
        for (const { source, shown, outline, ...named } of objects) {
          const face = await faceOf(source, watch);
          const detail = turned(face, shown.turnDeg);
          placed.push({ ...named, face: { sense: face.sense, detail, outline }, view: shown.view });
        }
        const details = placed.map(({ face }) => face.detail);
        const drawnIn = look && printedLook(look, options.language ?? 'en');
        return sent(printPlate(placed, { ...options, printScale: printScaleOf(size, details), look: drawnIn }));
      }),
    stack: (reference, subjects, order, look, told) =>
      host.answer(async () => sent(await makeStack(host, reference, subjects, order, look, host.watchOf(told)))),
    legible: (source, order, looks, told) =>
      host.answer(async () => {
        const watch = host.watchOf(told);
        const strip = await stripOf(source, order, watch);
        report(watch, 0.3, 'Seeing each place under every look');
        return legiblePlaces(strip, looks).map(({ fromColumn, toColumn, deg, look, contrast }) => {
          const [fromMm, toMm] = [fromColumn, toColumn].map((column) => column * strip.grid.pitch);
          return { fromMm, toMm, deg, look: look.name, contrast };
        });
      }),
    fragments: (reference, pieces, options, told) =>
      host.answer(async () => sent(await makeFragments(host, reference, pieces, options, host.watchOf(told)))),
    back: (source, told) =>
      host.answer(async () => {
        const view = await backOf(source, host.watchOf(told));
        const { grid, proposal, areaMm2 } = view;
        const sharp = drawn(grid, ridgePicture(view, { sharp: true }));
        const blurred = drawn(grid, ridgePicture(view));
        const { pitch, left, top } = grid;
        return sent({ sharp, blurred, pitch, left, top, proposal, areaMm2 });
      }),
    ridgeSpacing: (source) => host.answer(async () => ridgeSpacingMm(await backOf(source, {}))),
  };
}

/** Turned upright before it is lit: the lamp stands where the picture says. */
const turned = ({ sense, detail }: Pick<ReadFace, 'sense' | 'detail'>, turnDeg: number): HeightGrid =>
  turnGrid(detail, sense === 'intaglio' ? -turnDeg : turnDeg);

/** What other looks are held against. */
const plainLamp = { azimuthDeg: 315, heightDeg: 25 };

/** The side that looks away from the face. Throws in words where it was not scanned. */
function behind(mesh: PreparedScan['scan']['mesh'], toward: readonly [number, number, number]): Face {
  const unscanned = 'the back of this object was not scanned.';
  try {
    const back = findFace(mesh, { toward, sense: 'relief' }, []);
    const [, , , , , , x, y, z] = back.faceFromScan.rotation;
    if (x * toward[0] + y * toward[1] + z * toward[2] < 0.5) throw new Error(unscanned);
    return back;
  } catch {
    throw new Error(unscanned);
  }
}

const keyOfSource = (source: ReadSource): string => ('scan' in source ? source.scan.key : source.stored.key);

/** What tells one strip order from another; the base curve is told by a few of its points. */
const shortOrder = ({ band, startDeg, facing, arcs }: StripOrder): unknown => [
  ...[band.shape, band.cx, band.cy, band.base[0], band.base[101], band.outerMm, band.innerMm],
  ...[band.lettersOuterMm, startDeg, facing, arcs],
];

/** Moves the buffers of a result instead of copying them, where it goes to another thread. */
function sent<T extends object>(value: T): T {
  const buffers = new Set<ArrayBuffer>();
  const look = (part: unknown): void => {
    // A band's own curve stays: it is kept with the strip.
    if (part instanceof Float64Array) return;
    if (ArrayBuffer.isView(part)) buffers.add(part.buffer as ArrayBuffer);
    else if (part !== null && typeof part === 'object') for (const inner of Object.values(part)) look(inner);
  };
  look(value);
  return Comlink.transfer(value, [...buffers]);
}

/** The last few results by key. */
class Kept<T> {
  private readonly values = new Map<string, T>();
  private readonly most: number;

  constructor(most: number) {
    this.most = most;
  }

  of(key: string, make: () => T): T {
    const known = this.values.get(key);
    if (known !== undefined) return known;
    const made = make();
    this.values.set(key, made);
    for (const old of [...this.values.keys()].slice(0, -this.most)) this.values.delete(old);
    return made;
  }
}
