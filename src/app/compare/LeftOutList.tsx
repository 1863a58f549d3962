import { outlineArea } from '../../core/geometry/index.ts';
import { number } from '../look/numbers.ts';
import { countAgain, describeLeftOut } from '../state/byHand.ts';
import type { LeftOut } from '../state/document.ts';
import { useDocument } from '../state/store.ts';

/** What nothing is measured on, with the reason and the name that the record prints. */
export function LeftOutList() {
  const regions = useDocument((document) => document.leftOut);
  if (regions.length === 0) return null;
  return (
    <>
      <h3>Left out of everything measured</h3>
      <ul className="marks">
        {regions.map((region) => (
          <Entry key={region.id} region={region} />
        ))}
      </ul>
    </>
  );
}

function Entry({ region }: { region: LeftOut }) {
  const field = (name: 'why' | 'by', words: string, size: number) => (
    <label>
      <span className="soft">{words}</span>{' '}
      <input
        type="text"
        size={size}
        defaultValue={region[name]}
        aria-label={`${words}: ${region.label}`}
        onBlur={(event) =>
          event.target.value !== region[name] && describeLeftOut(region.id, { [name]: event.target.value })
        }
      />
    </label>
  );
  return (
    <li className="left-out-entry">
      {region.label}, <span className="num">{number(outlineArea(region.outline), 1)} mm²</span>
      <p className="section-ends">
        {field('why', 'because', 14)}
        {field('by', 'by', 8)}
        <button type="button" className="word" onClick={() => countAgain(region)}>
          count it again
        </button>
      </p>
    </li>
  );
}
