import { type DragEvent, type ReactNode, useState } from 'react';
import { openSaved } from '../saved/openSaved.ts';
import { bringIn } from '../state/scans.ts';
import { setState } from '../state/store.ts';
import { droppedFiles, hasFiles } from './dropped.ts';
import './bringIn.css';

/** The whole page takes files: scans are brought in, a saved comparison is opened. */
export function DropTarget({ children }: { children: ReactNode }) {
  const [over, setOver] = useState(false);
  const onDrop = async (event: DragEvent): Promise<void> => {
    if (!hasFiles(event)) return;
    event.preventDefault();
    setOver(false);
    const files = await droppedFiles(event.dataTransfer);
    if (files.length === 1 && (await openSaved(files[0]))) return;
    setState({ step: 'bringIn', margin: true });
    await bringIn(files);
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the same files can be chosen with the button in the margin
    <div
      className="drop-target"
      onDragOver={(event) => {
        if (!hasFiles(event)) return;
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={(event) => {
        if (event.relatedTarget === null) setOver(false);
      }}
      onDrop={onDrop}
    >
      {children}
      {over && (
        <div className="drop-here">
          <p>Lay the scans down here.</p>
        </div>
      )}
    </div>
  );
}
