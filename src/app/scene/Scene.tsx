import { useCallback, useEffect, useRef, useState } from 'react';
import { useSize } from '../plate/useSize.ts';
import { Painter, type PainterProps } from './Painter.tsx';
import { useSurface } from './useSurface.ts';

interface SceneProps extends PainterProps {
  /** Called when the graphics are lost, and again when they are back. */
  onLost(lost: boolean): void;
  /** Called once it draws, with whether it does so without a graphics card. */
  onReady(software: boolean): void;
}

/** The drawing surface of the plate. Everything that knows about the graphics card is in this folder. */
export default function Scene({ onLost, onReady, ...painter }: SceneProps) {
  const holder = useRef<HTMLDivElement>(null);
  const size = useSize(holder);
  const [software, setSoftware] = useState(false);
  const coarse = useMoving([painter.lamp, painter.pictures], software);
  const ready = useCallback(
    (context: WebGL2RenderingContext) => {
      const slow = isSoftware(context);
      setSoftware(slow);
      onReady(slow);
    },
    [onReady],
  );
  const surface = useSurface(holder, { onReady: ready, onLost });
  const ratio = coarse ? coarseRatio : Math.min(2, Math.max(1, window.devicePixelRatio));
  return (
    <div ref={holder} className="scene">
      {surface && size.width > 0 && <Painter {...painter} surface={surface} size={size} ratio={ratio} />}
    </div>
  );
}

/** Pixels a CSS pixel while something moves and no graphics card helps: a sixth of the work. */
const coarseRatio = 0.4;
/** Two changes within this time are a movement, which ends when nothing has changed for as long, ms. */
const movingMs = 450;

/** True from the second of several changes that follow each other until they rest. Always false with a graphics card. */
function useMoving(changing: readonly unknown[], software: boolean): boolean {
  const [moving, setMoving] = useState(false);
  const last = useRef(Number.NEGATIVE_INFINITY);
  // biome-ignore lint/correctness/useExhaustiveDependencies: what changes is all that counts
  useEffect(() => {
    if (!software) return;
    const now = performance.now();
    if (now - last.current < movingMs) setMoving(true);
    last.current = now;
    const rest = setTimeout(() => setMoving(false), movingMs);
    return () => clearTimeout(rest);
  }, [...changing, software]);
  return moving;
}

/** Whether the picture is computed without a graphics card: then shadows are left out until asked for. */
function isSoftware(context: WebGL2RenderingContext): boolean {
  const info = context.getExtension('WEBGL_debug_renderer_info');
  const name = String(context.getParameter(info ? info.UNMASKED_RENDERER_WEBGL : context.RENDERER));
  return /swiftshader|llvmpipe|software|basic render/i.test(name);
}
