import type { ShownChange } from '../../workers/browser/changeProtocol.ts';
import { changeLabel, placeWords } from './changeWords.ts';
import { chooseChange, setChange, useChange } from './state/changeStore.ts';

/** Every change, numbered as on the plate, with its measures and each cause that it can have. */
export function ChangeList({ changes }: { changes: readonly ShownChange[] }) {
  return (
    <>
      <h3>Changes</h3>
      <ol className="changes">
        {changes.map((change, i) => (
          <ChangeEntry key={change.id} change={change} number={i + 1} />
        ))}
      </ol>
      <p className="soft">The order of causes means nothing.</p>
    </>
  );
}

function ChangeEntry({ change, number }: { change: ShownChange; number: number }) {
  const chosen = useChange((state) => state.chosen === change.id);
  const point = (on: boolean) => (): void => setChange({ pointed: on ? change.id : null });
  return (
    <li className="change">
      <button
        type="button"
        className="word plain mark-name"
        aria-pressed={chosen}
        onClick={() => chooseChange(chosen ? null : change)}
        onPointerEnter={point(true)}
        onPointerLeave={point(false)}
        onFocus={point(true)}
        onBlur={point(false)}
      >
        <span className="mark-number">{number}</span> {changeLabel(change)}
      </button>{' '}
      <span className="soft">{placeWords(change)}</span>
      <p>{change.words}</p>
      <p className="change-causes">
        <i>Can be</i> {change.causes.join('; ')}.
      </p>
    </li>
  );
}
