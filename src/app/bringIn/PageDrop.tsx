import { type DragEvent, type ReactNode, useState } from 'react';
import { droppedFiles, hasFiles } from './dropped.ts';

interface Props {
  /** What is said while files are held over the page. */
  readonly words: string;
  onFiles(files: Awaited<ReturnType<typeof droppedFiles>>): Promise<void>;
  readonly children: ReactNode;
}

/** The whole page takes files. */
export function PageDrop({ words, onFiles, children }: Props) {
  const [over, setOver] = useState(false);
  const onDrop = async (event: DragEvent): Promise<void> => {
    if (!hasFiles(event)) return;
    event.preventDefault();
    setOver(false);
    await onFiles(await droppedFiles(event.dataTransfer));
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the same files can be chosen with a button
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
          <p>{words}</p>
        </div>
      )}
    </div>
  );
}
