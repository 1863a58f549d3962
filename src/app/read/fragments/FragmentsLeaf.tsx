import { useEffect, useState } from 'react';
import type { PrintPlate } from '../../../core/report/index.ts';
import { useRead } from '../state/readStore.ts';

/** Fragments of one seal in their places, as they are printed. */
export function FragmentsLeaf() {
  const shown = useRead((state) => state.slots.fragments.shown);
  const plate = shown?.value.plate ?? null;
  const url = usePainted(plate);
  return (
    <div className="fragments-leaf">
      {plate && url && <img src={url} alt={plate.caption} />}
      {!plate && <p className="soft">Each fragment is fitted to the reference and shown in its place there.</p>}
    </div>
  );
}

/** The plate as a picture that the page can show; null while it is painted. */
function usePainted(plate: PrintPlate | null): string | null {
  const [url, setUrl] = useState<string | null>(null);
  useEffect(() => {
    if (!plate) return;
    let made: string | null = null;
    let here = true;
    void import('../light/platePainting.ts')
      .then(({ plateFile }) => plateFile(plate, 'png'))
      .then((file) => {
        if (!here) return;
        made = URL.createObjectURL(file);
        setUrl(made);
      });
    return () => {
      here = false;
      if (made) URL.revokeObjectURL(made);
      setUrl(null);
    };
  }, [plate]);
  return url;
}
