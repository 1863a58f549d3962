import type { FacePicture } from '../../../workers/browser/readingProtocol.ts';
import { toned } from '../face/toned.ts';

/** Paper of the film: the same in both grounds, since it leaves the page. */
const paper = '#171512';
const ink = '#ece3d2';
const tones = { dark: '#0d0b09', light: '#f3ead8' };

export interface FilmOrder {
  readonly frames: readonly FacePicture[];
  /** What is printed under each frame: the angles of its lamp. */
  readonly captions: readonly string[];
  readonly title: string;
  readonly seconds: number;
  readonly signal: AbortSignal;
  told(fraction: number): void;
}

/** The kinds of film that browsers write, best first. */
const types = ['video/webm;codecs=vp9', 'video/webm;codecs=vp8', 'video/webm'];

/** Whether this browser can write a film at all. */
export const canFilm = (): boolean =>
  typeof MediaRecorder !== 'undefined' && types.some((type) => MediaRecorder.isTypeSupported(type));

/**
 * The frames as a WebM film that runs for so many seconds. It is recorded as it is played, so it takes that long. Null where it
 * was stopped.
 */
export async function film({ frames, captions, title, seconds, signal, told }: FilmOrder): Promise<Blob | null> {
  const canvas = document.createElement('canvas');
  const stage = stageFor(canvas, frames[0]);
  const stream = canvas.captureStream();
  const type = types.find((one) => MediaRecorder.isTypeSupported(one));
  const recorder = new MediaRecorder(stream, { mimeType: type, videoBitsPerSecond: 6_000_000 });
  const parts: Blob[] = [];
  recorder.ondataavailable = (event) => parts.push(event.data);
  const ended = new Promise<void>((done) => {
    recorder.onstop = () => done();
  });
  stage(frames[0], title, captions[0]);
  recorder.start();
  const each = (seconds * 1000) / frames.length;
  const begin = performance.now();
  for (let k = 0; k < frames.length && !signal.aborted; k++) {
    stage(frames[k], title, captions[k]);
    told((k + 1) / frames.length);
    await new Promise((done) => setTimeout(done, Math.max(0, begin + (k + 1) * each - performance.now())));
  }
  recorder.stop();
  await ended;
  for (const track of stream.getTracks()) track.stop();
  return signal.aborted ? null : new Blob(parts, { type: 'video/webm' });
}

/** Sets the canvas up for frames of this size, enlarged to a size that is good to see, and returns how one is drawn. */
function stageFor(canvas: HTMLCanvasElement, { width, height }: FacePicture) {
  const scale = Math.max(1, 900 / Math.max(width, height));
  const even = (value: number): number => 2 * Math.round(value / 2);
  canvas.width = even(width * scale + 80);
  canvas.height = even(height * scale + 130);
  const context = canvas.getContext('2d') as CanvasRenderingContext2D;
  const cell = document.createElement('canvas');
  cell.width = width;
  cell.height = height;
  return (frame: FacePicture, title: string, caption: string): void => {
    cell.getContext('2d')?.putImageData(toned(frame, tones), 0, 0);
    context.fillStyle = paper;
    context.fillRect(0, 0, canvas.width, canvas.height);
    context.imageSmoothingQuality = 'high';
    context.drawImage(cell, (canvas.width - width * scale) / 2, 24, width * scale, height * scale);
    context.fillStyle = ink;
    context.textAlign = 'center';
    context.font = '22px Alegreya, Georgia, serif';
    context.fillText(title, canvas.width / 2, canvas.height - 58, canvas.width - 30);
    context.font = 'italic 20px Alegreya, Georgia, serif';
    context.fillText(caption, canvas.width / 2, canvas.height - 26, canvas.width - 30);
  };
}
