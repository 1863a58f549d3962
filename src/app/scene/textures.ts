import * as THREE from 'three';
import type { HeightGrid } from '../../core/geometry/index.ts';
import type { ReliefPicture } from '../../workers/browser/reliefPicture.ts';

export function reliefTexture(picture: ReliefPicture): THREE.DataTexture {
  const texture = new THREE.DataTexture(
    picture.cells,
    picture.width,
    picture.height,
    THREE.RGBAFormat,
    THREE.HalfFloatType,
  );
  return averaged(texture);
}

export function maskTexture(picture: ReliefPicture): THREE.DataTexture {
  return averaged(new THREE.DataTexture(picture.mask, picture.width, picture.height, THREE.RGFormat));
}

/**
 * Difference and level of detection, both times the mask, and the mask itself: so that blending skips the holes. What
 * does not stand against chance over the whole face counts as lying inside its level.
 */
export function differenceTexture(map: HeightGrid, level: HeightGrid, significant?: Uint8Array): THREE.DataTexture {
  const cells = new Uint16Array(map.width * map.height * 4);
  const one = THREE.DataUtils.toHalfFloat(1);
  for (let i = 0; i < map.mask.length; i++) {
    if (!map.mask[i]) continue;
    cells[4 * i] = THREE.DataUtils.toHalfFloat(map.z[i]);
    const least = level.mask[i] ? level.z[i] : 0;
    const chance = significant && !significant[i] ? 1.2 * Math.abs(map.z[i]) : 0;
    cells[4 * i + 1] = THREE.DataUtils.toHalfFloat(Math.max(least, chance));
    cells[4 * i + 3] = one;
  }
  return smooth(new THREE.DataTexture(cells, map.width, map.height, THREE.RGBAFormat, THREE.HalfFloatType));
}

function smooth(texture: THREE.DataTexture): THREE.DataTexture {
  texture.minFilter = THREE.LinearFilter;
  texture.magFilter = THREE.LinearFilter;
  texture.unpackAlignment = 1;
  texture.needsUpdate = true;
  return texture;
}

/** Smaller copies for the card, so that a scan shown small does not glitter. */
function averaged(texture: THREE.DataTexture): THREE.DataTexture {
  smooth(texture);
  texture.minFilter = THREE.LinearMipmapLinearFilter;
  texture.generateMipmaps = true;
  return texture;
}
