import { number } from '../look/numbers.ts';
import { puOr } from '../look/puOr.ts';
import { usePair, useRangeMm } from '../state/select.ts';
import { actOnView } from '../state/store.ts';

const ranges = [0.05, 0.1, 0.2, 0.3, 0.5, 1, 2];

/** The scale of the depth differences: symmetric about zero, grey inside the level of detection. */
export function ColourScale() {
  const range = useRangeMm();
  const { comparison } = usePair();
  const level = comparison?.difference?.levelOfDetectionMm ?? 0;
  const step = (by: number): void => {
    const at = ranges.findIndex((value) => value >= range - 1e-9);
    actOnView('Colour scale changed', { rangeMm: ranges[Math.min(ranges.length - 1, Math.max(0, at + by))] });
  };
  const inside = Math.min(50, (level / range) * 50);
  return (
    <div className="choices">
      <button type="button" className="word" aria-label="Shorter colour scale" onClick={() => step(-1)}>
        shorter
      </button>
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
            {puOr.map((colour, i) => (
              <stop key={colour} offset={i / (puOr.length - 1)} stopColor={colour} />
            ))}
          </linearGradient>
          <pattern id="no-data" width={5} height={5} patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
            <line y2={5} stroke="currentColor" strokeWidth={1.6} />
          </pattern>
        </defs>
        <rect y={2} width={150} height={12} fill="url(#puor)" />
        <rect x={`${50 - inside}%`} y={2} width={`${2 * inside}%`} height={12} fill="#9a9388" />
        <path d="M75 0V16" stroke="currentColor" />
      </svg>
      <span>+{number(range, 2)} mm stands higher</span>
      <button type="button" className="word" aria-label="Longer colour scale" onClick={() => step(1)}>
        longer
      </button>
      <span className="soft">grey: not measurable (± {number(level, 3)})</span>
      <svg width={22} height={14} aria-hidden="true">
        <rect width={22} height={14} fill="url(#no-data)" />
      </svg>
      <span className="soft">no data</span>
    </div>
  );
}
