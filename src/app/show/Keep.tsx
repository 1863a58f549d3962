import { useState } from 'react';
import type { FaceView } from '../../workers/browser/protocol.ts';
import { packComparison } from '../saved/pack.ts';
import { download } from '../state/download.ts';
import { documentNow, getState, notify, useStore } from '../state/store.ts';
import { saveOffline } from './offline.ts';

/** The whole in one file. Full surfaces only with a reason: they could serve as a mould. */
export function Keep() {
  const [full, setFull] = useState(false);
  const [reason, setReason] = useState('');
  const given = full ? reason.trim() : '';
  const working = useStore((state) => state.comparison?.at === 'working');
  const ready = !working && (!full || given !== '');
  return (
    <>
      <h3>The whole in one file</h3>
      <p className="soft">
        A GLB that any glTF viewer shows, with the views, the notes and the hashes of the scans inside; or one page that
        shows it without a network, from a stick. Surfaces are reduced.
      </p>
      <p className="seats">
        <button type="button" className="word plain" disabled={!ready} onClick={() => saveGlb(given)}>
          save as GLB
        </button>
        <button type="button" className="word plain" disabled={!ready} onClick={() => void saveOffline(packed(given))}>
          save as one page
        </button>
      </p>
      {working && <p role="status">The pair is still worked on; the file can be saved when that is done.</p>}
      <label>
        <input type="checkbox" checked={full} onChange={(event) => setFull(event.target.checked)} /> with the relief in
        full detail
      </label>
      {full && (
        <label className="reason">
          <span className="reason-why">
            A matrix in full detail is a working seal. Why is it needed? The reason is written into the file.
          </span>
          <textarea rows={2} value={reason} onChange={(event) => setReason(event.target.value)} />
        </label>
      )}
    </>
  );
}

function packed(reason: string): Uint8Array<ArrayBuffer> {
  const { faces, comparison } = getState();
  const shown: Record<string, FaceView> = {};
  for (const [id, face] of Object.entries(faces)) if (face.at === 'ready') shown[id] = face.value;
  const done = comparison?.at === 'ready' ? comparison.value : undefined;
  const { referenceId, subjectId } = documentNow();
  if (done?.reference && referenceId) shown[referenceId] = done.reference;
  if (done?.subject && subjectId) shown[subjectId] = done.subject;
  return packComparison({ document: documentNow(), faces: shown, comparison: done, reason });
}

function saveGlb(reason: string): void {
  if (documentNow().scans.length === 0) {
    notify('There is nothing to save yet; bring scans in first.');
    return;
  }
  download(new Blob([packed(reason)], { type: 'model/gltf-binary' }), 'ectype-comparison.glb');
}
