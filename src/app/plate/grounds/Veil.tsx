import type { Picture } from '../../scene/Painter.tsx';

/** Dims a pane but for the given ways: what is spoken of stays lit. */
export function Veil({ picture, lit }: { picture: Picture; lit: string }) {
  const { x, y, width, height } = picture.pane;
  return <path className="veil" fillRule="evenodd" d={`M${x} ${y}h${width}v${height}h${-width}Z${lit}`} />;
}

/** A circle as a way. */
export const circleWay = (x: number, y: number, r: number): string =>
  `M${(x - r).toFixed(1)} ${y.toFixed(1)}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`;
