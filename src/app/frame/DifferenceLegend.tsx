import type { ReactNode } from 'react';
import { differenceScale, easyEnds, hex, levelGrey } from '../../core/compare/index.ts';
import { number } from '../look/numbers.ts';
import { usePair, useRangeMm } from '../state/select.ts';
import { actOnView } from '../state/store.ts';
import { legendOf } from './differenceWords.ts';

const stops = differenceScale().map(hex);
/** Where each colour stands: evenly on both sides, the two middle ones together at zero. */
const offsetOf = (i: number): number => (i < stops.length / 2 ? i : i - 1) / (stops.length - 2);
const width = 170;

/** The legend of the depth differences of the pair on the plate. */
export function DifferenceLegend({ fixed = false }: { fixed?: boolean }) {
  const range = useRangeMm();
  const { comparison } = usePair();
  const level = comparison?.difference?.levelOfDetectionMm ?? 0;
  const step = (by: number): void => {
    const at = easyEnds.findIndex((value) => value >= range - 1e-9);
    actOnView('Colour scale changed', { rangeMm: easyEnds[Math.min(easyEnds.length - 1, Math.max(0, at + by))] });
  };
  return (
    <ScaleLegend rangeMm={range} levelMm={level} words={legendOf(range, level)}>
      {!fixed && (
        <>
          <button type="button" className="word" onClick={() => step(-1)}>
            shorter scale
          </button>
          <button type="button" className="word" onClick={() => step(1)}>
            longer scale
          </button>
        </>
      )}
    </ScaleLegend>
  );
}

interface ScaleLegendProps {
  readonly rangeMm: number;
  readonly levelMm: number;
  readonly words: ReturnType<typeof legendOf>;
  readonly children?: ReactNode;
}

/** The one legend of differences, wherever they are shown: zero, the grey zone, the unit, what each end means, what is not compared. */
export function ScaleLegend({ rangeMm: range, levelMm: level, words, children }: ScaleLegendProps) {
  const inside = Math.min(0.5, (level / range) * 0.5);
  return (
    <div className="choices difference-legend">
      <span>{words.low}</span>
      <svg className="colour-scale" width={width} height={30} role="img" aria-label={words.whole}>
        <defs>
          <linearGradient id="puor">
            {stops.map((colour, i) => (
              <stop key={colour} offset={offsetOf(i)} stopColor={colour} />
            ))}
          </linearGradient>
        </defs>
        <rect y={2} width={width} height={12} fill="url(#puor)" />
        <rect x={(0.5 - inside) * width} y={2} width={2 * inside * width} height={12} fill={hex(levelGrey)} />
        <path d={`M${width / 2} 0V16`} stroke="currentColor" />
        <text x={0} y={27}>
          −{number(range, 2)}
        </text>
        <text x={width / 2} y={27} textAnchor="middle">
          0
        </text>
        <text x={width} y={27} textAnchor="end">
          +{number(range, 2)} mm
        </text>
      </svg>
      <span>{words.high}</span>
      <span className="soft">{words.grey}</span>
      <NoDataSign says="not compared" />
      {children}
    </div>
  );
}

/** The look of no data, as on the seals; among differences of what is not compared. */
export function NoDataSign({ says = 'no data' }: { says?: string }) {
  return (
    <span className="soft no-data-sign">
      <svg width={22} height={14} aria-hidden="true">
        <defs>
          <pattern id="no-data" width={7} height={7} patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
            <line y2={7} stroke="currentColor" strokeWidth={2} />
          </pattern>
        </defs>
        <rect width={22} height={14} fill="url(#no-data)" />
      </svg>{' '}
      {says}
    </span>
  );
}
