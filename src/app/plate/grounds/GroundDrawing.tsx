import { useMemo } from 'react';
import { identity, turnOver } from '../../../core/geometry/index.ts';
import type { ComparisonView, FaceView } from '../../../workers/browser/protocol.ts';
import type { Picture } from '../../scene/Painter.tsx';
import { useGround } from '../../state/ground.ts';
import { useMarks } from '../../state/marks.ts';
import type { PlateState } from '../usePlate.ts';
import { BrokenEdge } from './BrokenEdge.tsx';
import { Cells } from './Cells.tsx';
import { HeightKept, heightKept } from './HeightKept.tsx';
import { enlargementOf, Places } from './Places.tsx';
import { SizeEdges, sizeEnlargement } from './SizeEdges.tsx';
import './grounds.css';

interface Props {
  readonly picture: Picture;
  readonly plate: PlateState;
  readonly flip: 1 | -1;
}

/** What the ground that has taken over the plate draws on one pane. */
export function GroundDrawing({ picture, plate, flip }: Props) {
  const ground = useGround();
  const { comparison, reference } = plate;
  const judgement = comparison?.judgement;
  if (!ground || !judgement) return null;
  const onSubject = picture.pane.role === 'subject';
  switch (ground.code) {
    case 'cells':
      return (
        <>
          <Cells picture={picture} flip={flip} cells={judgement.cells} />
          {onSubject && <Note picture={picture} lines={['lit: in its place, and alike']} />}
        </>
      );
    case 'places':
    case 'missing':
    case 'legend': {
      const { constellation, wear } = judgement;
      if (!constellation) return null;
      const enlarged = enlargementOf(constellation, picture.projection.pxPerMm);
      const changed = wear.areas.filter(({ state }) => state !== 'sharp');
      return (
        <>
          <Places {...{ picture, flip, constellation, changed, enlarged }} />
          {onSubject && <Note picture={picture} lines={[`arrows ${enlarged} times enlarged`]} />}
        </>
      );
    }
    case 'size': {
      const ratio = comparison.difference?.size.ratio;
      if (ratio === undefined || !onSubject) return null;
      const enlarged = sizeEnlargement(ratio);
      return (
        <>
          <SizeEdges picture={picture} ratio={ratio} enlarged={enlarged} />
          <Note picture={picture} lines={[`difference ${enlarged} times enlarged`, 'a drawn through, b dashed']} />
        </>
      );
    }
    case 'brokenAlike':
      return <BrokenEdge {...{ picture, flip }} stretches={judgement.descentBy.edge?.stretches ?? []} />;
    case 'wear':
      return onSubject && reference ? <Kept {...{ picture, comparison, reference }} /> : null;
    default:
      return null;
  }
}

function Kept(props: { picture: Picture; comparison: ComparisonView; reference: FaceView }) {
  const { picture, comparison, reference } = props;
  const kept = useMemo(() => {
    const zones = comparison.judgement?.wear.zoneOutlines ?? [];
    const legend = zones.find(({ zone }) => zone === 'legend')?.outlines ?? [];
    const lies = reference.sense === 'intaglio' ? turnOver : identity;
    const bars = heightKept({ face: reference, lies }, { face: picture.face, lies: picture.plateFromFace }, legend);
    const whole = comparison.judgement?.wear.zones.find(({ zone }) => zone === 'legend')?.heightKept;
    return whole === undefined ? bars : withMean(bars, whole);
  }, [comparison, reference, picture.face, picture.plateFromFace]);
  return (
    <>
      <HeightKept picture={picture} kept={kept} />
      <Note
        picture={picture}
        lines={['bars: height kept', 'outer ring: all of it', 'in colour: below three quarters']}
      />
    </>
  );
}

/** Slopes say how the height is spread round the legend, and are blunted by fine wax; how much there is of it was measured on the whole. */
function withMean(bars: readonly number[], whole: number): readonly number[] {
  const known = bars.filter((share) => !Number.isNaN(share));
  const mean = known.reduce((sum, share) => sum + share, 0) / known.length;
  return whole > 0 && mean > 0 ? bars.map((share) => (share * whole) / mean) : bars;
}

/** How a drawing is to be read, in the lower corner of its pane: short lines, since a seal's foot stands beside them. */
function Note({ picture: { pane }, lines }: { picture: Picture; lines: readonly string[] }) {
  const x = pane.x + pane.width - 8;
  return (
    <text className="ground-note" x={x} y={pane.y + pane.height - 8} textAnchor="end">
      {lines.map((line, i) => (
        <tspan key={line} x={x} dy={i === 0 ? `${-1.25 * (lines.length - 1)}em` : '1.25em'}>
          {line}
        </tspan>
      ))}
    </text>
  );
}

/** The marks of which the ground on the plate speaks; none where it speaks of none. */
export function useGroundMarks(): readonly string[] {
  const ground = useGround();
  const marks = useMarks();
  return useMemo(
    () => (ground ? marks.filter(({ id }) => ground.marks.includes(id)).map(({ id }) => id) : []),
    [ground, marks],
  );
}
