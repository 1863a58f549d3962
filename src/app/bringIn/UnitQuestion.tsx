import { mmPer } from '../../core/scan/index.ts';
import type { Failure } from '../../workers/browser/protocol.ts';
import { number } from '../look/numbers.ts';
import type { ScanEntry } from '../state/document.ts';
import { restate } from '../state/scans.ts';

/** Diameter of the outline that gives the eye a measure, mm: about a one-euro coin. */
const coinMm = 23;

/** The unit is asked only when several fit: each candidate drawn to scale beside an outline the size of a coin. */
export function UnitQuestion({ scan, failure }: { scan: ScanEntry; failure: Failure }) {
  const { unitChoice } = failure;
  if (!unitChoice) return <p role="alert">{failure.message}</p>;
  const sizes = unitChoice.units.map((unit) => ({ unit, mm: unitChoice.faceLongSide * mmPer[unit] }));
  const scale = 74 / Math.max(coinMm, ...sizes.map(({ mm }) => mm));
  return (
    <div className="unit-question" role="alert">
      <p>How large is it? The file gives no unit that fits a seal. The ring is the size of a coin, {coinMm} mm.</p>
      <div className="unit-choices">
        {sizes.map(({ unit, mm }) => (
          <button
            key={unit}
            type="button"
            className="unit-choice"
            onClick={() => restate(scan.id, { unit }, 'Unit stated')}
          >
            <svg width={84} height={84} viewBox="-42 -42 84 84" aria-hidden="true">
              <circle r={(coinMm / 2) * scale} className="coin" />
              <ellipse rx={(mm / 2) * scale * 0.8} ry={(mm / 2) * scale} className="seal" />
            </svg>
            {number(mm, mm < 10 ? 1 : 0)} mm
            <span className="soft"> ({unit})</span>
          </button>
        ))}
      </div>
    </div>
  );
}
