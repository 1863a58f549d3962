import { useEffect, useMemo, useState } from 'react';
import { objectLabel, pairWords, partedBetween, partedBy, partedTitle } from '../../core/report/words/index.ts';
import { capital } from '../../core/scan/index.ts';
import type { VerifiedPair } from '../../store/verifiedPair.ts';
import { Sheet } from './Sheet.tsx';
import { useUpright } from './state/detail.ts';
import { useFaces, wantFaces } from './state/faces.ts';
import { type ScanTold, useRooms, useScan } from './state/rooms.ts';
import { type PairTold, pairTold, verified } from './state/searching.ts';

/** Two objects beside one another: where they agree, and what was found of the pair. */
export function PairRoom({ a, b }: { a: number; b: number }) {
  const pair = usePair(a, b);
  const [one, other] = [useScan(a), useScan(b)];
  const upright = useUpright(a);
  useEffect(() => wantFaces([a, b]), [a, b]);
  const faces = useFaces();
  const lying = useMemo(
    () =>
      [
        { scan: a, turnDeg: upright },
        { scan: b, turnDeg: upright + (pair?.turnDeg ?? 0) },
      ].flatMap(({ scan, turnDeg }) => {
        const face = faces[scan];
        return typeof face === 'object' ? [{ scan, face, turnDeg }] : [];
      }),
    [a, b, pair, faces, upright],
  );
  if (!one || !other) return <p className="room-words">One of the two is no longer in the collection.</p>;
  const places = pair?.places;
  return (
    <>
      <div className="spread">
        <Sheet
          label={`${objectLabel(one)} and ${objectLabel(other)} at one scale`}
          lying={lying}
          caption={(scan) => <PlainCaption scan={scan === a ? one : other} />}
          places={places ? (scan) => (scan === a ? places.a : places.b) : undefined}
        />
      </div>
      <Words {...{ one, other, pair }} />
    </>
  );
}

export const PlainCaption = ({ scan }: { scan: ScanTold }) => (
  <p className="sheet-name">
    {objectLabel(scan)}
    <span className="soft num">{[scan.kind, scan.documentDate].filter(Boolean).join(', ')}</span>
  </p>
);

/** Why, in the order of weight: what each ground says, and what speaks against it. */
export const Grounds = ({ pair }: { pair: VerifiedPair }) => (
  <ol className="found-grounds">
    {pair.grounds.map(({ title, figure, says, against }) => (
      <li key={title}>
        <b>{title}</b> <span className="soft num">{figure}</span>
        <p>{says}</p>
        <p className="soft">{against}</p>
      </li>
    ))}
  </ol>
);

function usePair(a: number, b: number): PairTold | null {
  const [pair, setPair] = useState<PairTold | null>(null);
  useEffect(() => {
    let wanted = true;
    setPair(null);
    pairTold(a, b)
      .then((found) => wanted && setPair(found))
      .catch(() => undefined);
    return () => {
      wanted = false;
    };
  }, [a, b]);
  return pair;
}

function Words({ one, other, pair }: { one: ScanTold; other: ScanTold; pair: PairTold | null }) {
  const [compared, setCompared] = useState<VerifiedPair | string | null>(null);
  const [comparing, setComparing] = useState(false);
  const count = (pair?.places?.a.length ?? 0) / 2;
  const told = useRooms((state) => state.told);
  const parted = told && partedBetween(told.groups.parted, one.scan, other.scan);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling region without other stops needs one
    <aside className="margin" aria-label="The pair" tabIndex={0}>
      <h2>Two beside one another</h2>
      <p>
        {objectLabel(one)} and {objectLabel(other)}
      </p>
      {pair?.link ? (
        <>
          <h3>verified</h3>
          <p>{capital(pairWords(pair.link))}.</p>
          <p className="soft num">By {pair.link.byTool}.</p>
        </>
      ) : (
        pair && <p className="soft">This pair was not verified: no search put the two forward as likely.</p>
      )}
      {parted && (
        <>
          <h3>kept apart</h3>
          <p>{partedTitle}.</p>
          <p className="soft num">{capital(partedBy(parted))}.</p>
        </>
      )}
      {count > 0 && (
        <p>
          <span className="agreeing-key" aria-hidden="true" /> {count} places agree, marked on both. A search goes by
          them and proves nothing by them.
        </p>
      )}
      <div className="deeds">
        <button
          type="button"
          className="deed"
          disabled={comparing}
          onClick={async () => {
            setComparing(true);
            setCompared(await verified({ a: one.scan, b: other.scan }));
            setComparing(false);
          }}
        >
          {comparing ? 'Comparing…' : 'Compare them now'}
        </button>
      </div>
      <div role="status">
        {typeof compared === 'string' && <p>{compared}</p>}
        {compared && typeof compared === 'object' && (
          <>
            <p>{compared.sentence}</p>
            <Grounds pair={compared} />
            <p className="soft num">
              {pairWords(compared)}. Compared on the kept faces; nothing of it was put into the collection.
            </p>
          </>
        )}
      </div>
    </aside>
  );
}
