import type { DragEvent } from 'react';
import type { Brought } from '../state/scans.ts';

/** Whether files are drawn over the page; what is drawn about within it is none. */
export const hasFiles = ({ dataTransfer }: DragEvent): boolean => dataTransfer.types.includes('Files');

/** Every file of a drop, folders opened. */
export async function droppedFiles(transfer: DataTransfer): Promise<Brought[]> {
  const entries = [...transfer.items].flatMap((item) => item.webkitGetAsEntry() ?? []);
  if (entries.length === 0) return [...transfer.files].map((file) => ({ file, name: file.name }));
  const files: Brought[] = [];
  for (const entry of entries) await gather(entry, files);
  return files;
}

async function gather(entry: FileSystemEntry, into: Brought[]): Promise<void> {
  if (entry.isFile) {
    const file = await new Promise<File>((resolve, reject) => (entry as FileSystemFileEntry).file(resolve, reject));
    into.push({ file, name: file.name });
    return;
  }
  const reader = (entry as FileSystemDirectoryEntry).createReader();
  // A folder is handed over in portions until an empty one comes.
  for (;;) {
    const portion = await new Promise<FileSystemEntry[]>((resolve, reject) => reader.readEntries(resolve, reject));
    if (portion.length === 0) return;
    for (const child of portion) await gather(child, into);
  }
}
