import * as THREE from 'three';
import { differenceScale } from '../../core/compare/index.ts';
import type { PlateMesh } from '../../workers/browser/plateMesh.ts';
import type { FaceView } from '../../workers/browser/protocol.ts';
import type { ReliefPicture } from '../../workers/browser/reliefPicture.ts';
import { edgeSectors } from '../plate/imageEdge.ts';
import { fragmentShader, vertexShader } from './shader.ts';
import { maskTexture, reliefTexture } from './textures.ts';

/** One face as the card draws it. */
export interface Seal {
  readonly mesh: THREE.Mesh<THREE.BufferGeometry, THREE.ShaderMaterial>;
  readonly textures: readonly THREE.Texture[];
  dispose(): void;
}

const emptyTexture = new THREE.DataTexture(new Uint16Array(4), 1, 1, THREE.RGBAFormat, THREE.HalfFloatType);
emptyTexture.needsUpdate = true;

/** What of a face is sent to the card. */
interface Shown {
  readonly picture: ReliefPicture;
  readonly mesh: PlateMesh;
  readonly outline: Pick<FaceView['outline'], 'widthMm' | 'heightMm'>;
}

/** Sends a face to the card: its light surface, its normal picture and its mask. */
export function makeSeal({ picture, mesh, outline }: Shown): Seal {
  const geometry = new THREE.BufferGeometry();
  geometry.setAttribute('position', new THREE.BufferAttribute(mesh.positions, 3));
  geometry.setIndex(new THREE.BufferAttribute(mesh.few ?? mesh.triangles, 1));
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
      reachMm: { value: reachShare * Math.max(outline.widthMm, outline.heightMm) },
      dark: { value: new THREE.Vector3() },
      light: { value: new THREE.Vector3() },
      ink: { value: new THREE.Vector3() },
      scale: { value: differenceScale().map(([r, g, b]) => new THREE.Vector3(r / 255, g / 255, b / 255)) },
      hatchPx: { value: 1 },
      imageEdge: { value: new Float32Array(edgeSectors).fill(1) },
      edgeReach: { value: 1 },
      fade: { value: 0 },
      cut: { value: -1 },
      paneEnds: { value: new THREE.Vector2() },
    },
  });
  const shown = new THREE.Mesh(geometry, material);
  shown.matrixAutoUpdate = false;
  shown.frustumCulled = false;
  return {
    mesh: shown,
    textures: [relief, mask],
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

/** How far a shadow is followed, as a share of the face. */
const reachShare = 0.1;

/** A seal of one cell, to have the shader translated with. */
export const makeBlank = (): Seal =>
  makeSeal({
    picture: { width: 1, height: 1, pitch: 1, left: 0, top: 0, cells: new Uint16Array(4), mask: new Uint8Array(2) },
    mesh: { positions: new Float32Array(9), triangles: new Uint32Array(3) },
    outline: { widthMm: 1, heightMm: 1 },
  });
