import { useCallback, useEffect, useRef, useState } from 'react';
import type * as THREE from 'three';
import { coarseRatio } from './aside.ts';
import { Painter, type PainterProps } from './Painter.tsx';
import { useFiber } from './useFiber.ts';

interface SceneProps extends Omit<PainterProps, 'software' | 'ratio'> {
  /** Called when the graphics are lost, and again when they are back. */
  onLost(lost: boolean): void;
  /** Called once it draws, with whether it does so without a graphics card. */
  onReady(software: boolean): void;
}

/** The drawing surface of the plate. Everything that knows about the graphics card is in this folder. */
export default function Scene({ onLost, onReady, ...painter }: SceneProps) {
  const [software, setSoftware] = useState(false);
  const here = useHere();
  const coarse = useMoving([painter.lamp, painter.pictures], software);
  const created = useCallback(
    ({ gl }: { gl: THREE.WebGLRenderer }) => {
      const canvas = gl.domElement;
      gl.setClearColor(0x000000, 0);
      canvas.addEventListener('webglcontextlost', (event) => {
        event.preventDefault();
        // A surface that is put away gives its graphics back: nothing is lost then.
        if (here.current) onLost(true);
      });
      canvas.addEventListener('webglcontextrestored', () => onLost(false));
      const slow = isSoftware(gl.getContext());
      setSoftware(slow);
      onReady(slow);
    },
    [onLost, onReady, here],
  );
  const holder = useRef<HTMLDivElement>(null);
  const painted = <Painter {...painter} software={software} ratio={coarse ? coarseRatio : null} />;
  useFiber(holder, { ...surface, dpr: [1, 2], onCreated: created }, painted);
  return <div ref={holder} className="scene" />;
}

const surface = {
  orthographic: true,
  flat: true,
  linear: true,
  frameloop: 'demand',
  gl: { alpha: true, antialias: false, premultipliedAlpha: true },
} as const;

/** True as long as the surface is on the page. */
function useHere(): { readonly current: boolean } {
  const here = useRef(true);
  useEffect(() => {
    here.current = true;
    return () => {
      here.current = false;
    };
  }, []);
  return here;
}

/** Two changes within this time are a movement, which ends when nothing has changed for as long, ms. */
const movingMs = 450;

/** True from the second of several changes that follow each other until they rest. Always false with a graphics card. */
function useMoving(changing: readonly unknown[], software: boolean): boolean {
  const [moving, setMoving] = useState(false);
  const last = useRef(Number.NEGATIVE_INFINITY);
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
function isSoftware(context: WebGLRenderingContext | WebGL2RenderingContext): boolean {
  const info = context.getExtension('WEBGL_debug_renderer_info');
  const name = String(context.getParameter(info ? info.UNMASKED_RENDERER_WEBGL : context.RENDERER));
  return /swiftshader|llvmpipe|software|basic render/i.test(name);
}
