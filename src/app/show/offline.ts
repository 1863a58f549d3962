import { download } from '../state/download.ts';
import { notify } from '../state/store.ts';

/** Where the page that shows a comparison offline has its data. */
export const offlineMark = 'ectype-saved';

/** One self-contained page: the app without its worker, and the saved comparison inside as base64. */
export async function saveOffline(glb: Uint8Array<ArrayBuffer>): Promise<void> {
  const answer = await fetch('offline.html').catch(() => null);
  if (!answer?.ok) {
    notify('The page for showing offline does not lie beside the app; build the app again.');
    return;
  }
  const template = await answer.text();
  const data = `<script type="application/octet-stream" id="${offlineMark}">${base64(glb)}</script>`;
  download(new Blob([template.replace('<!--saved-->', () => data)], { type: 'text/html' }), 'ectype-seminar.html');
}

function base64(bytes: Uint8Array): string {
  let text = '';
  for (let i = 0; i < bytes.length; i += 0x8000) text += String.fromCharCode(...bytes.subarray(i, i + 0x8000));
  return btoa(text);
}

/** The comparison that lies inside this page, where it is an offline one. */
export function savedInPage(): Uint8Array | null {
  const text = document.getElementById(offlineMark)?.textContent;
  return text ? Uint8Array.from(atob(text.trim()), (letter) => letter.charCodeAt(0)) : null;
}
