import { differenceScale, easyEnds, hex, levelGrey } from '../../core/compare/index.ts';
import { number } from '../look/numbers.ts';
import { usePair, useRangeMm } from '../state/select.ts';
import { actOnView } from '../state/store.ts';

const stops = differenceScale().map(hex);
/** Where each colour stands: evenly on both sides, the two middle ones together at zero. */
const offsetOf = (i: number): number => (i < stops.length / 2 ? i : i - 1) / (stops.length - 2);

/** The scale of the depth differences: symmetric about zero, grey inside the level of detection. */
export function ColourScale() {
  const range = useRangeMm();
  const { comparison } = usePair();
  const level = comparison?.difference?.levelOfDetectionMm ?? 0;
  const step = (by: number): void => {
    const at = easyEnds.findIndex((value) => value >= range - 1e-9);
    actOnView('Colour scale changed', { rangeMm: easyEnds[Math.min(easyEnds.length - 1, Math.max(0, at + by))] });
  };
  const inside = Math.min(50, (level / range) * 50);
  return (
    <div className="choices">
      <span>lacks height −{number(range, 2)}</span>
      <svg
        className="colour-scale"
        width={150}
        height={16}
        role="img"
        aria-label={`Colour scale from minus to plus ${number(range, 2)} millimetres`}
      >
        <defs>
          <linearGradient id="puor">
            {stops.map((colour, i) => (
              <stop key={colour} offset={offsetOf(i)} stopColor={colour} />
            ))}
          </linearGradient>
          <pattern id="no-data" width={5} height={5} patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
            <line y2={5} stroke="currentColor" strokeWidth={1.6} />
          </pattern>
        </defs>
        <rect y={2} width={150} height={12} fill="url(#puor)" />
        <rect x={`${50 - inside}%`} y={2} width={`${2 * inside}%`} height={12} fill={hex(levelGrey)} />
        <path d="M75 0V16" stroke="currentColor" />
      </svg>
      <span>+{number(range, 2)} mm stands higher</span>
      <span className="soft">grey: not measurable (± {number(level, 3)})</span>
      <svg width={22} height={14} aria-hidden="true">
        <rect width={22} height={14} fill="url(#no-data)" />
      </svg>
      <span className="soft">no data</span>
      <button type="button" className="word" onClick={() => step(-1)}>
        shorter scale
      </button>
      <button type="button" className="word" onClick={() => step(1)}>
        longer scale
      </button>
    </div>
  );
}
