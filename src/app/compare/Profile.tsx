import { ticks } from 'd3-array';
import type { PointerEvent } from 'react';
import type { Section } from '../../core/compare/index.ts';
import { number } from '../look/numbers.ts';
import type { Size } from '../plate/panes.ts';
import { setState, useStore } from '../state/store.ts';

/** Of the drawing in the margin, its own units. */
const inMargin: Size = { width: 330, height: 150 };
const edge = { left: 34, right: 8, top: 12, bottom: 24 };

interface ProfileProps {
  readonly section: Section;
  /** Of the drawing, where it is not the margin's. */
  readonly size?: Size;
}

/** Two profiles along one line, a drawn through and b dashed; heights enlarged, by how much is said. */
export function Profile({ section, size = inMargin }: ProfileProps) {
  const { width, height } = size;
  const at = useStore((state) => state.profileAt);
  const plot = plotOf(section, size);
  const place = (event: PointerEvent<SVGSVGElement>): void => {
    const box = event.currentTarget.getBoundingClientRect();
    const x = ((event.clientX - box.left) / box.width) * width;
    setState({ profileAt: Math.min(plot.length, Math.max(0, (x - edge.left) / plot.kx)) });
  };
  const index =
    at === null ? -1 : Math.min(section.at.length - 1, Math.round((at / plot.length) * (section.at.length - 1)));
  return (
    <figure className="profile">
      <svg
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={`Profiles of a and b over ${number(plot.length, 1)} millimetres`}
        onPointerMove={place}
        onPointerLeave={() => setState({ profileAt: null })}
      >
        {plot.ticksY.map((z) => (
          <g key={z}>
            <line className="grid" x1={edge.left} x2={width - edge.right} y1={plot.y(z)} y2={plot.y(z)} />
            <text x={edge.left - 5} y={plot.y(z) + 4} textAnchor="end">
              {number(z, plot.decimals)}
            </text>
          </g>
        ))}
        {plot.ticksX.map((x) => (
          <text key={x} x={plot.x(x)} y={height - 6} textAnchor="middle">
            {x}
          </text>
        ))}
        <path className="profile-a" d={pathOf(section.at, section.reference, plot)} />
        <path className="profile-b" d={pathOf(section.at, section.subject, plot)} />
        {at !== null && (
          <line className="profile-at" x1={plot.x(at)} x2={plot.x(at)} y1={edge.top} y2={height - edge.bottom} />
        )}
      </svg>
      <figcaption className="num">
        <span className="key-a" /> a <span className="key-b" /> b{' '}
        <span className="soft">
          mm; heights {number(plot.ky / plot.kx, 1)} times enlarged
          {index >= 0 && `; here a ${at2(section.reference[index])}, b ${at2(section.subject[index])}`}
        </span>
      </figcaption>
    </figure>
  );
}

const at2 = (z: number): string => (Number.isNaN(z) ? 'no surface' : number(z, 2));

interface Plot {
  readonly length: number;
  readonly kx: number;
  readonly ky: number;
  readonly ticksX: readonly number[];
  readonly ticksY: readonly number[];
  /** Of the height ticks. */
  readonly decimals: number;
  x(mm: number): number;
  y(mm: number): number;
}

function plotOf(section: Section, { width, height }: Size): Plot {
  const heights = [...section.reference, ...section.subject].filter((z) => !Number.isNaN(z));
  const low = Math.min(0, ...heights);
  const high = Math.max(0.05, ...heights);
  const length = section.at.at(-1) ?? 1;
  const kx = (width - edge.left - edge.right) / length;
  const ky = (height - edge.top - edge.bottom) / (high - low || 1);
  const ticksY = ticks(low, high, 3);
  return {
    length,
    kx,
    ky,
    ticksX: ticks(0, length, width < 500 ? 5 : 12),
    ticksY,
    decimals: ticksY.length > 1 ? Math.max(0, Math.ceil(-Math.log10(ticksY[1] - ticksY[0]))) : 1,
    x: (mm) => edge.left + mm * kx,
    y: (mm) => height - edge.bottom - (mm - low) * ky,
  };
}

function pathOf(at: ArrayLike<number>, z: ArrayLike<number>, plot: Plot): string {
  let path = '';
  let down = false;
  for (let i = 0; i < at.length; i++) {
    if (Number.isNaN(z[i])) {
      down = false;
      continue;
    }
    path += `${down ? 'L' : 'M'}${plot.x(at[i]).toFixed(1)} ${plot.y(z[i]).toFixed(1)}`;
    down = true;
  }
  return path;
}
