import * as THREE from 'three';
import { type Similarity, toMatrix4 } from '../../core/geometry/index.ts';
import { type Projection, pictureFromPlate } from '../plate/project.ts';
import type { Lamp } from '../state/document.ts';

export const matrixOf = (s: Similarity): THREE.Matrix4 => new THREE.Matrix4().set(...(toMatrix4(s) as Sixteen));
type Sixteen = Parameters<THREE.Matrix4['set']>;
type Nine = Parameters<THREE.Matrix3['set']>;

export const turnOf = (s: Similarity): THREE.Matrix3 => new THREE.Matrix3().set(...([...s.rotation] as Nine));

/** Pixels about the pane's middle ← plate mm, tipped as the camera says. */
export function pixelsFromPlate(p: Projection): THREE.Matrix4 {
  const m = pictureFromPlate(p);
  const k = p.pxPerMm;
  const [cx, cy] = [p.camera.x, p.camera.y];
  const row = (a: number, b: number, c: number) => [k * a, k * b, k * c, -k * (a * cx + b * cy)];
  return new THREE.Matrix4().set(
    ...([...row(m[0], m[1], m[2]), ...row(m[3], m[4], m[5]), ...row(m[6], m[7], m[8]), 0, 0, 0, 1] as Sixteen),
  );
}

/** Unit vector toward the lamp in the plate's frame: azimuth clockwise from the top of the picture, height above the face. */
export function towardLamp({ azimuthDeg, heightDeg }: Lamp, turnDeg = 0): THREE.Vector3 {
  const a = ((azimuthDeg - turnDeg) * Math.PI) / 180;
  const h = (heightDeg * Math.PI) / 180;
  return new THREE.Vector3(Math.sin(a) * Math.cos(h), Math.cos(a) * Math.cos(h), Math.sin(h));
}

/** The direction to the eye in the plate's frame. */
export function towardEye(p: Projection): THREE.Vector3 {
  const m = pictureFromPlate(p);
  return new THREE.Vector3(m[6], m[7], m[8]);
}
