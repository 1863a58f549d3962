import { type CSSProperties, useEffect, useRef } from 'react';
import { useTones } from '../../look/useTones.ts';
import { type Grey, toned } from './toned.ts';

/** A grey picture of the core on the screen, cell for pixel; the browser only enlarges it. */
export function ToneCanvas(props: { picture: Grey; label: string; className?: string; style?: CSSProperties }) {
  const { picture, label, className, style } = props;
  const canvas = useRef<HTMLCanvasElement>(null);
  const tones = useTones();
  useEffect(() => {
    const element = canvas.current;
    if (!element) return;
    element.width = picture.width;
    element.height = picture.height;
    element.getContext('2d')?.putImageData(toned(picture, tones), 0, 0);
  }, [picture, tones]);
  return <canvas ref={canvas} className={className} style={style} role="img" aria-label={label} />;
}
