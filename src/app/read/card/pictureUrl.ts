import { type Grey, toned } from '../face/toned.ts';

/** Printed tone on white paper, in both grounds. */
const tones = { dark: '#2a241d', light: '#fbf4e6' };

/** A grey picture as a PNG address, enlarged to at least `leastPx` on its longer side, so that it prints smoothly. */
export function pictureUrl(picture: Grey, leastPx = 1200): string {
  const { width, height } = picture;
  const scale = Math.max(1, leastPx / Math.max(width, height));
  const cell = document.createElement('canvas');
  cell.width = width;
  cell.height = height;
  cell.getContext('2d')?.putImageData(toned(picture, tones), 0, 0);
  if (scale === 1) return cell.toDataURL('image/png');
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(width * scale);
  canvas.height = Math.round(height * scale);
  const context = canvas.getContext('2d');
  if (!context) return cell.toDataURL('image/png');
  context.imageSmoothingQuality = 'high';
  context.drawImage(cell, 0, 0, canvas.width, canvas.height);
  return canvas.toDataURL('image/png');
}

/** The same as a file. */
export function pictureBlob(picture: Grey, leastPx = 1200): Blob {
  const address = pictureUrl(picture, leastPx);
  const bytes = Uint8Array.from(atob(address.slice(address.indexOf(',') + 1)), (letter) => letter.charCodeAt(0));
  return new Blob([bytes], { type: 'image/png' });
}
