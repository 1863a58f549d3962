import type { SizeTest } from '../../core/compare/index.ts';

/** The names of the materials stand in a column of their own: a share of the width, %, so that words keep their size on every screen. */
const names = 35;
/** Where the axis ends, %: its last word is centred there. */
const end = 94;
/** Ratios that the axis shows at least; it goes on to wherever b lies, as far as the ends given. */
const [from, to] = [0.95, 1.015];
const [least, most] = [0.7, 1.4];

/** What steps of a chain do to the size, as a share of it: from the literature that docs/fit.md names. */
const steps = [
  { words: 'pressed wax', low: 0.99, high: 0.998 },
  { words: 'poured wax', low: 0.966, high: 0.988 },
  { words: 'cast metal', low: 0.974, high: 0.99 },
  { words: 'plaster', low: 1.0005, high: 1.003 },
] as const;

/** The chain of sizes: where one step of each material would bring b against a, and where b is, with its 95 % range. */
export function SizeChain({ size: { ratio, sd } }: { size: SizeTest }) {
  const [low, high] = [ratio - 1.96 * sd, ratio + 1.96 * sd];
  const [left, right] = [Math.max(least, Math.min(from, low - 0.005)), Math.min(most, Math.max(to, high + 0.005))];
  const x = (value: number): number => names + ((value - left) / (right - left)) * (end - names);
  const share = (value: number): string => `${value.toFixed(2)}%`;
  const clamped = (value: number): number => Math.min(end, Math.max(names, x(value)));
  return (
    <figure className="size-chain">
      <svg
        role="img"
        aria-label={`b measures ${(100 * ratio).toFixed(2)} percent of a, between ${(100 * low).toFixed(2)} and ${(100 * high).toFixed(2)}`}
      >
        {steps.map((step, i) => (
          <g key={step.words}>
            <rect
              className="chain-step"
              x={share(x(step.low))}
              y={8 + 22 * i}
              width={share(x(step.high) - x(step.low))}
              height={8}
            />
            <text y={17 + 22 * i}>{step.words}</text>
          </g>
        ))}
        <line className="chain-one" x1={share(x(1))} x2={share(x(1))} y1={2} y2={96} />
        <rect
          className="chain-range"
          x={share(clamped(low))}
          width={share(Math.max(0.6, clamped(high) - clamped(low)))}
          y={2}
          height={92}
        />
        <line className="chain-here" x1={share(clamped(ratio))} x2={share(clamped(ratio))} y1={0} y2={96} />
        {ticksOf(left, right).map((tick) => (
          <text key={tick} x={share(x(tick))} y={114} textAnchor="middle">
            {tick === 1 ? 'as a' : `${tick > 1 ? '+' : '−'}${Math.round(100 * Math.abs(tick - 1))} %`}
          </text>
        ))}
      </svg>
    </figure>
  );
}

/** Whole numbers of percent between the two ends, some three of them, 1 among them; none under the names. */
function ticksOf(left: number, right: number): number[] {
  const step = [0.02, 0.04, 0.1].find((each) => (right - left) / each < 5) ?? 0.2;
  const first = Math.ceil((left - 1) / step + 0.25);
  const last = Math.floor((right - 1) / step);
  return Array.from({ length: last - first + 1 }, (_, i) => 1 + (first + i) * step);
}
