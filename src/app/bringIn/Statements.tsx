import type { ReactNode } from 'react';
import { kinds, type Unit, units } from '../../core/scan/index.ts';
import type { FaceView } from '../../workers/browser/protocol.ts';
import { kindWords } from '../frame/words.ts';
import type { ScanEntry } from '../state/document.ts';
import { restate } from '../state/scans.ts';

interface StatementsProps {
  readonly scan: ScanEntry;
  readonly face: FaceView | undefined;
  readonly children: ReactNode;
}

/** What the user states about a scan; every field may stay empty. */
export function Statements({ scan, face, children }: StatementsProps) {
  const { stated, id, name } = scan;
  const map = /\.(png|tiff?)$/i.test(name);
  const state = (change: Parameters<typeof restate>[1]): void => restate(id, change);
  return (
    <div className="statements">
      <label>
        <span>It is a</span>
        <select
          value={stated.kind ?? ''}
          onChange={(event) => state({ kind: kinds.find((kind) => kind === event.target.value) })}
        >
          <option value="">{face ? `${kindWords[face.kind].toLowerCase()}, it seems` : 'not said'}</option>
          {kinds.map((kind) => (
            <option key={kind} value={kind}>
              {kindWords[kind].toLowerCase()}
            </option>
          ))}
        </select>
      </label>
      <label>
        <span>of</span>
        <input
          type="text"
          size={12}
          placeholder="material"
          defaultValue={stated.material ?? ''}
          onBlur={(event) =>
            event.target.value !== (stated.material ?? '') && state({ material: event.target.value || undefined })
          }
        />
      </label>
      <label>
        <span>Unit</span>
        <select
          value={stated.unit ?? ''}
          onChange={(event) => state({ unit: units.find((unit): unit is Unit => unit === event.target.value) })}
        >
          <option value="">found</option>
          {units.map((unit) => (
            <option key={unit}>{unit}</option>
          ))}
        </select>
      </label>
      <Figure
        label="Scale known to, %"
        value={stated.scaleUncertaintyPercent}
        hint="0.3"
        set={(n) => state({ scaleUncertaintyPercent: n })}
      />
      {map && <Figure label="Pixel side" value={stated.pixelSize} hint="mm" set={(n) => state({ pixelSize: n })} />}
      {map && (
        <Figure label="One grey step" value={stated.heightStep} hint="mm" set={(n) => state({ heightStep: n })} />
      )}
      {children}
    </div>
  );
}

function Figure(props: {
  label: string;
  value: number | undefined;
  hint: string;
  set(value: number | undefined): void;
}) {
  return (
    <label>
      <span>{props.label}</span>
      <input
        type="text"
        inputMode="decimal"
        size={5}
        placeholder={props.hint}
        defaultValue={props.value ?? ''}
        onBlur={(event) => {
          const value = Number.parseFloat(event.target.value.replace(',', '.'));
          const next = value > 0 ? value : undefined;
          if (next !== props.value) props.set(next);
        }}
      />
    </label>
  );
}
