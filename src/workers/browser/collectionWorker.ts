import * as Comlink from 'comlink';
import { prepareScan } from '../../core/pipeline.ts';
import { refusedByLength, ScanError } from '../../core/scan/index.ts';
import { packFace, unpackFace } from '../../store/keptFace.ts';
import { answer } from './answer.ts';
import { arraysIn } from './arraysIn.ts';
import type { CollectionServices } from './collectionProtocol.ts';
import { platformDigest } from './digest.ts';
import { buffersOf, faceView } from './faceView.ts';

/** Reads kept faces and scans beside the page. */
const services: CollectionServices = {
  face: (key, packed) =>
    answer(async () => {
      const view = await faceView(key, unpackFace(packed));
      return Comlink.transfer(view, buffersOf(view) as Transferable[]);
    }),
  query: ({ key, name, file, stated }, told) =>
    answer(async () => {
      const refused = refusedByLength(name, file.size);
      if (refused) throw new ScanError(refused.code, `${name}: ${refused.message}`);
      const bytes = new Uint8Array(await file.arrayBuffer());
      const prepared = await prepareScan(
        { ...stated, name, bytes, ...platformDigest },
        { progress: (fraction, doing) => void told(fraction, doing) },
      );
      const query = { view: await faceView(key, prepared), packed: new Uint8Array(packFace(prepared)) };
      return Comlink.transfer(query, arraysIn(query));
    }),
};

Comlink.expose(services);
