import { identity, turnOver } from '../../core/geometry/index.ts';
import type { FaceView } from '../../workers/browser/protocol.ts';
import { extentOf, imageEdge } from '../plate/imageEdge.ts';
import type { Size } from '../plate/panes.ts';
import type { Picture } from '../scene/Painter.tsx';
import type { Camera } from '../state/document.ts';

/** One face of a sheet. */
export interface Lying {
  readonly scan: number;
  readonly face: FaceView;
  /** Counter-clockwise turn, in the impression's sense, that brings it upright beside the others. */
  readonly turnDeg: number;
}

/** Pixels round a face, for the lamp's ring, and below it, for its caption. */
const roundPx = 42;
const captionPx = 50;
/** Below all, for the bar of the scale. */
const barPx = 26;

const straight: Camera = { x: 0, y: 0, zoom: 1, tipDeg: 0, swingDeg: 0 };

/** Every face in a pane of its own, in rows, all at the one scale at which they are largest; each as its impression, turned upright. */
export function laidOut(lying: readonly Lying[], whole: Size): Picture[] {
  if (lying.length === 0 || whole.width === 0) return [];
  const size = { width: whole.width, height: whole.height - barPx };
  const faces = lying.map((one) => {
    const lies = one.face.sense === 'intaglio' ? turnOver : identity;
    const edge = imageEdge([{ face: one.face, lies }]);
    return { ...one, lies, edge, extent: extentOf(edge, -one.turnDeg) };
  });
  const [widthMm, heightMm] = [0, 1].map((k) => Math.max(...faces.map(({ extent }) => extent[k])));
  const { columns, pxPerMm } = bestColumns(faces.length, size, widthMm, heightMm);
  const rows = Math.ceil(faces.length / columns);
  const width = size.width / columns;
  // Captions stand close below their faces; what height is left over lies above and below them all.
  const height = Math.min(size.height / rows - captionPx, heightMm * pxPerMm + 2 * roundPx);
  const top = (size.height - rows * (height + captionPx)) / 2;
  return faces.map(({ scan, face, turnDeg, lies, edge }, k) => {
    const x = (k % columns) * width;
    const y = top + Math.floor(k / columns) * (height + captionPx);
    const id = String(scan);
    const pane = { id, role: 'subject' as const, x, y, width, height, from: x, to: x + width, differences: false };
    const middle = { centreX: x + width / 2, centreY: y + height / 2 };
    return {
      pane: { ...pane, within: null },
      projection: { pxPerMm, ...middle, camera: straight, turnDeg: -turnDeg },
      ...{ face, edge, plateFromFace: lies, mirror: false, fades: false },
    };
  });
}

/** Two faces lie side by side at least: one under another would leave the width of the sheet empty. */
function bestColumns(count: number, { width, height }: Size, widthMm: number, heightMm: number) {
  let best = { columns: Math.min(count, 2), pxPerMm: 0 };
  for (let columns = best.columns; columns <= count; columns++) {
    const rows = Math.ceil(count / columns);
    const [x, y] = [width / columns - 2 * roundPx, height / rows - captionPx - 2 * roundPx];
    const pxPerMm = Math.min(Math.max(x, 20) / widthMm, Math.max(y, 20) / heightMm);
    if (pxPerMm > best.pxPerMm) best = { columns, pxPerMm };
  }
  return best;
}
