import { download } from '../../state/download.ts';
import { useScan, useShown } from '../state/current.ts';
import { useRead } from '../state/readStore.ts';
import { type PicturePart, pictureFile } from './pictureFile.ts';

/** The face or the strip as it is seen, with every step of its look and a scale bar, as a PNG. */
export function SavePicture({ of }: { of: 'face' | 'strip' }) {
  const { scan } = useScan();
  const stacked = useRead((state) => state.stacked);
  const face = useShown('face');
  const strip = useShown('strip');
  const stack = useShown('stack');
  if (!scan) return null;
  const parts = (): PicturePart[] => {
    if (of === 'face')
      return face ? [{ picture: face, pitch: face.pitch, words: `${scan.title}. ${face.caption}` }] : [];
    if (!stacked)
      return strip
        ? [{ picture: strip.picture, pitch: strip.places.grid.pitch, words: `${scan.title}. ${strip.picture.caption}` }]
        : [];
    if (!stack) return [];
    const { pitch } = stack.places.grid;
    const rows = stack.rows.map(
      ({ picture, name, standing }): PicturePart => ({
        ...{ picture, pitch },
        words: standing ? `${name}; ${standing}` : name,
      }),
    );
    const { composite } = stack;
    return composite.refused ? rows : [...rows, { picture: composite.picture, pitch, words: composite.caption }];
  };
  const save = async (): Promise<void> => {
    const made = parts();
    if (made.length === 0) return;
    const foot = [
      stacked && of === 'strip' ? stack?.rows[0].picture.caption : '',
      scan.simulated ? 'Simulated: computed, not scanned.' : '',
    ];
    const file = await pictureFile(made, foot.filter(Boolean).join(' '));
    if (file) download(file, `${scan.name.replace(/\.[^.]+$/, '')}-${of}.png`);
  };
  return (
    <button type="button" className="word" onClick={() => void save()}>
      {of === 'face' ? 'save the face' : 'save the strip'}
    </button>
  );
}
