import { useDocument } from '../../state/store.ts';
import { actOnRead } from '../state/acts.ts';
import { useLook, useLooks } from '../state/current.ts';

/** Which look a picture is seen in. */
export function LookSelect({ of }: { of: 'face' | 'strip' }) {
  const looks = useLooks();
  const look = useLook(of);
  const own = useDocument((document) => document.read.looks);
  const standard = looks.slice(0, looks.length - own.length);
  const choose = (name: string): void =>
    actOnRead('Look changed', { [of === 'face' ? 'faceLook' : 'stripLook']: name, lamp: null });
  return (
    <select
      className="look-select"
      aria-label={of === 'face' ? 'Look of the face' : 'Look of the strip'}
      value={look.name}
      onChange={(event) => choose(event.target.value)}
    >
      {standard.map(({ name }) => (
        <option key={name}>{name}</option>
      ))}
      {own.length > 0 && (
        <optgroup label="Your own">
          {own.map(({ name }) => (
            <option key={name}>{name}</option>
          ))}
        </optgroup>
      )}
    </select>
  );
}
