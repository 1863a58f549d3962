import { Canvas } from '@react-three/fiber';
import { useCallback } from 'react';
import type * as THREE from 'three';
import { Painter, type PainterProps } from './Painter.tsx';

interface SceneProps extends PainterProps {
  /** Called when the graphics are lost, and again when they are back. */
  onLost(lost: boolean): void;
  /** Called once it draws, with whether it does so without a graphics card. */
  onReady(software: boolean): void;
}

/** The drawing surface of the plate. Everything that knows about the graphics card is in this folder. */
export default function Scene({ onLost, onReady, ...painter }: SceneProps) {
  const created = useCallback(
    ({ gl }: { gl: THREE.WebGLRenderer }) => {
      const canvas = gl.domElement;
      gl.setClearColor(0x000000, 0);
      canvas.addEventListener('webglcontextlost', (event) => {
        event.preventDefault();
        onLost(true);
      });
      canvas.addEventListener('webglcontextrestored', () => onLost(false));
      onReady(isSoftware(gl.getContext()));
    },
    [onLost, onReady],
  );
  return (
    <Canvas
      className="scene"
      orthographic
      flat
      linear
      frameloop="demand"
      dpr={[1, 2]}
      gl={{ alpha: true, antialias: false, premultipliedAlpha: true }}
      onCreated={created}
    >
      <Painter {...painter} />
    </Canvas>
  );
}

/** Whether the picture is computed without a graphics card: then shadows are left out until asked for. */
function isSoftware(context: WebGLRenderingContext | WebGL2RenderingContext): boolean {
  const info = context.getExtension('WEBGL_debug_renderer_info');
  const name = String(context.getParameter(info ? info.UNMASKED_RENDERER_WEBGL : context.RENDERER));
  return /swiftshader|llvmpipe|software|basic render/i.test(name);
}
