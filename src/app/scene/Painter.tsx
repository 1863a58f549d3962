import { useFrame, useThree } from '@react-three/fiber';
import { type RefObject, useCallback, useEffect, useMemo, useRef } from 'react';
import * as THREE from 'three';
import type { Similarity } from '../../core/geometry/index.ts';
import type { ComparisonView, FaceView } from '../../workers/browser/protocol.ts';
import { rgb } from '../look/rgb.ts';
import { type ImageEdge, longestReach } from '../plate/imageEdge.ts';
import type { Pane } from '../plate/panes.ts';
import type { Projection } from '../plate/project.ts';
import type { Lamp } from '../state/document.ts';
import { type Paint, paintedAside } from './aside.ts';
import { matrixOf, pixelsFromPlate, towardEye, towardLamp, turnOf } from './placing.ts';
import { gridVector, makeBlank, makeSeal, type Seal } from './seal.ts';
import { differenceTexture } from './textures.ts';

export interface Picture {
  readonly pane: Pane;
  readonly projection: Projection;
  readonly face: FaceView;
  /** An engraved face shown as it is: x runs the other way than in the impression's sense. */
  readonly mirror: boolean;
  readonly plateFromFace: Similarity;
  /** Where the image ends, in the plate's frame. */
  readonly edge: ImageEdge;
  /** Whether what goes on beyond it fades away. */
  readonly fades: boolean;
}

export interface Tones {
  readonly dark: string;
  readonly light: string;
  readonly ink: string;
}

export type PaintedDifference = Pick<
  NonNullable<ComparisonView['difference']>,
  'map' | 'levelOfDetection' | 'significant'
>;

export interface PainterProps {
  readonly pictures: readonly Picture[];
  readonly lamp: Lamp;
  readonly rangeMm: number;
  readonly difference: PaintedDifference | null;
  readonly tones: Tones;
  readonly shadows: boolean;
  /** Whether there is no graphics card. */
  readonly software: boolean;
  /** Pixels of the picture per CSS pixel; null: as many as the surface has. Heeded without a graphics card only. */
  readonly ratio: number | null;
  /** Given a function that paints the plate once, larger, for a figure. */
  onCapture(capture: Capture): void;
}

export type Capture = (scale: number) => HTMLCanvasElement;

/** Paints every pane with its own seal, cut to its part of the plate. Frames are drawn only when something changed. */
export function Painter(props: PainterProps) {
  const { gl, invalidate, size } = useThree();
  const scene = useMemo(() => new THREE.Scene(), []);
  const camera = useMemo(() => new THREE.OrthographicCamera(), []);
  const seals = useSeals(props.pictures, scene);
  const map = useDifferenceTexture(props.difference);
  const latest = useRef(props);
  latest.current = props;
  useEffect(() => invalidate());
  const warm = useWarmShader(gl, scene, camera, invalidate);
  /** Without a graphics card: the seals whose pictures it has. */
  const sent = useRef(new WeakSet<Seal>());
  const paint = useCallback<Paint>(
    (target, ratio) => {
      if (!warm.current) return;
      gl.setRenderTarget(target);
      cutTo(gl, target, null);
      gl.clear();
      gl.autoClear = false;
      for (const picture of latest.current.pictures) {
        const seal = seals.get(picture.face);
        if (!seal || (latest.current.software && !sent.current.has(seal))) continue;
        dress(seal, picture, latest.current, size.height, map, ratio);
        for (const other of seals.values()) other.mesh.visible = other === seal;
        const { pane } = picture;
        aim(camera, pane);
        const [bottom, width] = [size.height - pane.y - pane.height, Math.max(0, pane.to - pane.from)];
        cutTo(gl, target, {
          viewport: new THREE.Vector4(pane.x, bottom, pane.width, pane.height).multiplyScalar(target ? ratio : 1),
          scissor: new THREE.Vector4(pane.from, bottom, width, pane.height).multiplyScalar(target ? ratio : 1),
        });
        gl.render(scene, camera);
      }
      cutTo(gl, target, null);
    },
    [gl, scene, camera, seals, map, size, warm],
  );
  const { software } = props;
  const aside = useRef<ReturnType<typeof paintedAside>>(null);
  const painting = useRef(paint);
  painting.current = paint;
  const shown = useRef(seals);
  shown.current = seals;
  useEffect(() => {
    if (!software) return;
    const send = (): (() => void) | null => {
      const seal = [...shown.current.values()].find((one) => !sent.current.has(one));
      for (const texture of seal?.textures ?? []) gl.initTexture(texture);
      return seal ? () => sent.current.add(seal) : null;
    };
    const made = paintedAside(gl, (...how) => painting.current(...how), send);
    aside.current = made;
    return () => {
      made.end();
      aside.current = null;
    };
  }, [gl, software]);
  useFrame(() => {
    const ratio = latest.current.ratio ?? gl.getPixelRatio();
    if (!warm.current) return;
    if (aside.current) aside.current.ask(ratio);
    else paint(null, gl.getPixelRatio());
  }, 1);
  const { onCapture } = props;
  useEffect(
    () => onCapture((scale) => captured(gl, () => paint(null, gl.getPixelRatio()), scale)),
    [gl, paint, onCapture],
  );
  return null;
}

/** What is painted next: a part of the plate, CSS pixels (of a target its own), or null for the whole of it. */
function cutTo(
  gl: THREE.WebGLRenderer,
  target: THREE.WebGLRenderTarget | null,
  part: { viewport: THREE.Vector4; scissor: THREE.Vector4 } | null,
): void {
  if (target) {
    target.scissorTest = part !== null;
    target.viewport.copy(part?.viewport ?? new THREE.Vector4(0, 0, target.width, target.height)).round();
    if (part) target.scissor.copy(part.scissor).round();
    // Heeded when the target is set anew.
    gl.setRenderTarget(target);
    return;
  }
  gl.setScissorTest(part !== null);
  if (!part) return;
  gl.setViewport(part.viewport);
  gl.setScissor(part.scissor);
}

/** The plate painted once at `scale` pixels per CSS pixel, as a picture of its own. */
function captured(gl: THREE.WebGLRenderer, paint: () => void, scale: number): HTMLCanvasElement {
  const before = gl.getPixelRatio();
  gl.setPixelRatio(scale);
  paint();
  const copy = document.createElement('canvas');
  copy.width = gl.domElement.width;
  copy.height = gl.domElement.height;
  copy.getContext('2d')?.drawImage(gl.domElement, 0, 0);
  gl.setPixelRatio(before);
  paint();
  return copy;
}

function aim(camera: THREE.OrthographicCamera, pane: Pane): void {
  camera.left = -pane.width / 2;
  camera.right = pane.width / 2;
  camera.top = pane.height / 2;
  camera.bottom = -pane.height / 2;
  camera.near = -20_000;
  camera.far = 20_000;
  camera.updateProjectionMatrix();
}

function dress(
  seal: Seal,
  picture: Picture,
  props: PainterProps,
  heightPx: number,
  map: THREE.Texture | null,
  pixelRatio: number,
): void {
  const plateFromFace = matrixOf(picture.plateFromFace);
  const u = seal.mesh.material.uniforms;
  seal.mesh.matrix.multiplyMatrices(pixelsFromPlate(picture.projection), plateFromFace);
  seal.mesh.matrixWorldNeedsUpdate = true;
  u.plateFromFace.value = plateFromFace;
  u.turn.value = turnOf(picture.plateFromFace);
  u.lamp.value = towardLamp(props.lamp, picture.projection.turnDeg);
  u.imageEdge.value = picture.edge;
  u.edgeReach.value = longestReach(picture.edge);
  u.fade.value = picture.fades ? 1 : 0;
  u.cut.value = picture.pane.within ?? -1;
  const { y, height } = picture.pane;
  u.paneEnds.value.set(heightPx - y - height, heightPx - y).multiplyScalar(pixelRatio);
  u.eye.value = towardEye(picture.projection);
  u.shadowSteps.value = props.shadows ? 28 : 0;
  u.dark.value.set(...rgb(props.tones.dark));
  u.light.value.set(...rgb(props.tones.light));
  u.ink.value.set(...rgb(props.tones.ink));
  u.hatchPx.value = pixelRatio;
  u.rangeMm.value = props.rangeMm;
  const shown = picture.pane.differences && map && props.difference;
  u.showDifferences.value = shown ? 1 : 0;
  if (!shown || !props.difference) return;
  const grid = props.difference.map;
  u.differences.value = map;
  u.differenceGrid.value = gridVector({ ...grid, left: grid.left - grid.pitch / 2, top: grid.top + grid.pitch / 2 });
}

/**
 * Lets the card translate the shader beside the page's own work, before the first seal is there: every seal uses the
 * same one. Nothing is painted until it is ready.
 */
function useWarmShader(
  gl: THREE.WebGLRenderer,
  scene: THREE.Scene,
  camera: THREE.Camera,
  invalidate: () => void,
): RefObject<boolean> {
  const warm = useRef(false);
  useEffect(() => {
    const blank = makeBlank();
    void gl.compileAsync(blank.mesh, camera, scene).then(() => {
      warm.current = true;
      invalidate();
    });
    // Disposed only at the end: the program would be thrown away with its last user.
    return () => blank.dispose();
  }, [gl, scene, camera, invalidate]);
  return warm;
}

/** The seals on the card: made when a face first appears, given back when it is gone. */
function useSeals(pictures: readonly Picture[], scene: THREE.Scene): Map<FaceView, Seal> {
  const seals = useRef(new Map<FaceView, Seal>());
  const wanted = new Set(pictures.map((picture) => picture.face));
  for (const face of wanted)
    if (!seals.current.has(face)) {
      const seal = makeSeal(face);
      scene.add(seal.mesh);
      seals.current.set(face, seal);
    }
  useEffect(() => {
    for (const [face, seal] of seals.current)
      if (!wanted.has(face)) {
        scene.remove(seal.mesh);
        seal.dispose();
        seals.current.delete(face);
      }
  });
  return seals.current;
}

function useDifferenceTexture(difference: PaintedDifference | null): THREE.Texture | null {
  const texture = useMemo(
    () => (difference ? differenceTexture(difference.map, difference.levelOfDetection, difference.significant) : null),
    [difference],
  );
  useEffect(() => () => texture?.dispose(), [texture]);
  return texture;
}
