import { type RefObject, useEffect, useState } from 'react';
import * as THREE from 'three';

/** Where the graphics card paints, and how it is told. */
export interface Surface {
  readonly gl: THREE.WebGLRenderer;
  /** Has `paint` called with the next picture of the screen; several calls before that are one. */
  invalidate(paint: () => void): void;
}

interface Told {
  onReady(context: WebGL2RenderingContext): void;
  onLost(lost: boolean): void;
}

/** A drawing surface that fills `holder` as long as it is on the page; null before there is one. */
export function useSurface(holder: RefObject<HTMLElement | null>, { onReady, onLost }: Told): Surface | null {
  const [surface, setSurface] = useState<Surface | null>(null);
  useEffect(() => {
    if (!holder.current) return;
    const gl = new THREE.WebGLRenderer({ alpha: true, antialias: false, powerPreference: 'high-performance' });
    gl.setClearColor(0x000000, 0);
    const canvas = gl.domElement;
    holder.current.append(canvas);
    // A surface that is put away gives its graphics back: nothing is lost then.
    let here = true;
    canvas.addEventListener('webglcontextlost', (event) => {
      event.preventDefault();
      if (here) onLost(true);
    });
    canvas.addEventListener('webglcontextrestored', () => onLost(false));
    const frames = coalesced();
    setSurface({ gl, invalidate: frames.ask });
    onReady(gl.getContext() as WebGL2RenderingContext);
    return () => {
      here = false;
      frames.stop();
      canvas.remove();
      gl.dispose();
      gl.forceContextLoss();
      setSurface(null);
    };
  }, [holder, onReady, onLost]);
  return surface;
}

/** The last of several wishes before a picture of the screen is done with it. */
function coalesced() {
  let wanted: (() => void) | null = null;
  let asked = 0;
  return {
    ask(paint: () => void): void {
      wanted = paint;
      asked ||= requestAnimationFrame(() => {
        asked = 0;
        wanted?.();
      });
    },
    stop(): void {
      cancelAnimationFrame(asked);
    },
  };
}
