import { BackPlate } from './back/BackPlate.tsx';
import { CardSheet } from './card/CardSheet.tsx';
import { FacePlate } from './face/FacePlate.tsx';
import { FragmentsLeaf } from './fragments/FragmentsLeaf.tsx';
import { FaceCaption } from './legend/FaceCaption.tsx';
import { StripCaption } from './legend/StripCaption.tsx';
import { StripPane } from './legend/StripPane.tsx';
import { ReadWorking } from './ReadWorking.tsx';
import { useScan, useShown } from './state/current.ts';
import { useRead } from './state/readStore.ts';
import { useReadKeys } from './state/useReadKeys.ts';
import { useReadWork } from './state/useReadWork.ts';
import './read.css';

/** The reading room: the face large, its legend straight below, and what is read from it. */
export default function ReadRoom() {
  useReadWork();
  useReadKeys();
  const leaf = useRead((state) => state.leaf);
  const { scan } = useScan();
  return (
    <section className={`read-room leaf-${leaf}`} aria-label="Reading room">
      {!scan && <p className="read-empty">Bring a scan in first; its legend is found by itself.</p>}
      {scan && leaf === 'legend' && <LegendLeaf />}
      {scan && leaf === 'back' && <BackPlate />}
      {scan && leaf === 'fragments' && <FragmentsLeaf />}
      {scan && leaf === 'card' && <CardSheet />}
      <ReadWorking />
    </section>
  );
}

function LegendLeaf() {
  const picture = useShown('face');
  const stacked = useRead((state) => state.stacked);
  return (
    <div className={stacked ? 'legend-leaf stacked' : 'legend-leaf'}>
      {picture ? <FacePlate picture={picture} /> : <div className="face-plate" />}
      <FaceCaption />
      <StripPane />
      <StripCaption />
    </div>
  );
}
