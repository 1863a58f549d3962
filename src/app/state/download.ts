/** Hands a file to the user. Nothing leaves the computer. */
export function download(file: Blob, name: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(file);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

export const saveText = (text: string, name: string): void =>
  download(new Blob([text], { type: 'application/json' }), name);
