import { readNow, setRead, useRead } from '../state/readStore.ts';

/** Larger, smaller, the whole; the wheel on the strip does the same. */
export function StripZoom() {
  const usual = useRead((state) => state.window.pxPerMm === null);
  const seen = useRead((state) => state.seen);
  const by = (factor: number) => (): void => {
    if (!seen) return;
    const [from, to] = seen;
    const width = document.querySelector('.strip-desk')?.clientWidth ?? 0;
    const pxPerMm = (readNow().window.pxPerMm ?? width / Math.max(1e-6, to - from)) * factor;
    const middle = (from + to) / 2;
    setRead({ window: { pxPerMm, leftMm: middle - width / pxPerMm / 2 } });
  };
  return (
    <span className="read-choices">
      <button type="button" className="word" onClick={by(1.25)}>
        larger
      </button>
      <button type="button" className="word" onClick={by(0.8)}>
        smaller
      </button>
      <button type="button" className="word" onClick={() => setRead({ window: { pxPerMm: 1e-6, leftMm: 0 } })}>
        whole
      </button>
      <button
        type="button"
        className="word"
        disabled={usual}
        onClick={() => setRead({ window: { pxPerMm: null, leftMm: seen?.[0] ?? 0 } })}
      >
        to type
      </button>
    </span>
  );
}
