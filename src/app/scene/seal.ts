import * as THREE from 'three';
import type { FaceView } from '../../workers/browser/protocol.ts';
import { puOr, rgb } from '../look/puOr.ts';
import { fragmentShader, vertexShader } from './shader.ts';
import { maskTexture, reliefTexture } from './textures.ts';

/** One face as the card draws it. */
export interface Seal {
  readonly mesh: THREE.Mesh<THREE.BufferGeometry, THREE.ShaderMaterial>;
  dispose(): void;
}

const emptyTexture = new THREE.DataTexture(new Uint16Array(4), 1, 1, THREE.RGBAFormat, THREE.HalfFloatType);
emptyTexture.needsUpdate = true;

/** Sends a face to the card: its light surface, its normal picture and its mask. */
export function makeSeal(face: FaceView): Seal {
  const { picture } = face;
  const geometry = new THREE.BufferGeometry();
  geometry.setAttribute('position', new THREE.BufferAttribute(face.mesh.positions, 3));
  geometry.setIndex(new THREE.BufferAttribute(face.mesh.triangles, 1));
  const relief = reliefTexture(picture);
  const mask = maskTexture(picture);
  const material = new THREE.ShaderMaterial({
    glslVersion: THREE.GLSL3,
    vertexShader,
    fragmentShader,
    side: THREE.DoubleSide,
    transparent: true,
    premultipliedAlpha: true,
    uniforms: {
      relief: { value: relief },
      mask: { value: mask },
      differences: { value: emptyTexture },
      grid: { value: gridVector(picture) },
      halfCell: { value: picture.pitch / 2 },
      differenceGrid: { value: new THREE.Vector4(0, 0, 1, 1) },
      plateFromFace: { value: new THREE.Matrix4() },
      turn: { value: new THREE.Matrix3() },
      lamp: { value: new THREE.Vector3(0, 0, 1) },
      eye: { value: new THREE.Vector3(0, 0, 1) },
      showDifferences: { value: 0 },
      rangeMm: { value: 0.2 },
      shadowSteps: { value: 0 },
      reachMm: { value: reachOf(face) },
      dark: { value: new THREE.Vector3() },
      light: { value: new THREE.Vector3() },
      ink: { value: new THREE.Vector3() },
      scale: { value: puOr.map((hex) => new THREE.Vector3(...rgb(hex))) },
      hatchPx: { value: 1 },
    },
  });
  const mesh = new THREE.Mesh(geometry, material);
  mesh.matrixAutoUpdate = false;
  mesh.frustumCulled = false;
  return {
    mesh,
    dispose() {
      geometry.dispose();
      material.dispose();
      relief.dispose();
      mask.dispose();
    },
  };
}

/** Left, top and one over the size in mm of a grid: what turns a place into a place of the texture. */
export const gridVector = (grid: { left: number; top: number; width: number; height: number; pitch: number }) =>
  new THREE.Vector4(grid.left, grid.top, 1 / (grid.width * grid.pitch), 1 / (grid.height * grid.pitch));

/** How far a shadow is followed: a tenth of the face. */
const reachOf = (face: FaceView): number => 0.1 * Math.max(face.outline.widthMm, face.outline.heightMm);
