import { Veil } from '../plate/grounds/Veil.tsx';
import { LampRing } from '../plate/LampRing.tsx';
import { Leader, pixelsOf, placedLabels, widened } from '../plate/Outlines.tsx';
import { Pointed } from '../plate/Pointed.tsx';
import type { Size } from '../plate/panes.ts';
import { ScaleBar } from '../plate/ScaleBar.tsx';
import type { Picture } from '../scene/Painter.tsx';
import { useView } from '../state/ground.ts';
import { changeLabel } from './changeWords.ts';
import { chooseChange, useChange } from './state/changeStore.ts';
import { useChangeView } from './state/useChangeWork.ts';

/** What is drawn over the dates: the lamp, a hairline to each change from outside the relief, the scale bar, the place pointed at. */
export function ChangeOverlay({ pictures, size }: { pictures: readonly Picture[]; size: Size }) {
  const view = useChangeView();
  const [first] = pictures;
  const mapped = pictures.some(({ pane }) => pane.differences);
  return (
    <svg className="overlay" width={size.width} height={size.height} aria-hidden={pictures.length === 0}>
      <title>Drawn over the two dates</title>
      {view && pictures.map((picture) => <Pointers key={picture.pane.id} picture={picture} changes={view.changes} />)}
      <Pointed pictures={pictures} comparison={mapped && view?.map ? { difference: view.map } : undefined} />
      {pictures.map((picture, i) => (
        <LampRing key={picture.pane.id} picture={picture} leading={i === 0} />
      ))}
      {first && <ScaleBar picture={first} x={20} y={size.height - 16} />}
    </svg>
  );
}

type Changes = NonNullable<ReturnType<typeof useChangeView>>['changes'];

/** The changes on one pane: a full point on the later and on the map, an empty ring on the earlier, where it had not happened yet. */
function Pointers({ picture, changes }: { picture: Picture; changes: Changes }) {
  const lit = useChange(({ pointed, chosen }) => pointed ?? chosen);
  const sun = (useView().lamp.azimuthDeg * Math.PI) / 180;
  const marks = changes.flatMap((change, i) =>
    change.outline.length > 2
      ? [{ id: change.id, number: i + 1, label: changeLabel(change), own: false, outline: change.outline }]
      : [],
  );
  const ways = marks.filter(({ id }) => id === lit).map(({ outline }) => widened(pixelsOf(outline, picture)));
  const happened = picture.pane.differences || picture.pane.role === 'subject';
  return (
    <g className="outlines">
      {ways.length > 0 && <Veil picture={picture} lit={ways.join('')} />}
      {placedLabels(marks, picture, [sun]).map(({ mark, label, foot }) => (
        <Leader
          key={mark.id}
          {...{ mark, label, foot }}
          lit={mark.id === lit}
          carried={happened}
          onPoint={() => chooseChange(changes.find(({ id }) => id === mark.id) ?? null)}
        />
      ))}
    </g>
  );
}
