import { number } from '../look/numbers.ts';
import type { Line } from '../state/document.ts';
import { usePair } from '../state/select.ts';
import { actOnView } from '../state/store.ts';

const names = ['A across', 'A up', 'B across', 'B up'] as const;

/** The ends of the section in numbers, for the keyboard and for a line that is to be drawn again. */
export function SectionEnds({ line }: { line: Line }) {
  return (
    <p className="section-ends num">
      {names.map((name, i) => (
        <label key={name}>
          <span className="soft">{name}</span>{' '}
          <input
            key={line[i]}
            type="text"
            inputMode="decimal"
            size={5}
            defaultValue={number(line[i], 1)}
            onBlur={(event) => move(line, i, event.target.value)}
          />
        </label>
      ))}
      <span className="soft">mm from the middle</span>
    </p>
  );
}

function move(line: Line, end: number, words: string): void {
  const value = Number.parseFloat(words.replace('−', '-').replace(',', '.'));
  if (Number.isNaN(value) || words === number(line[end], 1)) return;
  const section = line.map((old, i) => (i === end ? value : old)) as unknown as Line;
  actOnView('Section moved', { section });
}

/** A first section across the middle, where none is drawn by hand. */
export function LaySection() {
  const { reference } = usePair();
  const half = (reference?.outline.widthMm ?? 20) * 0.45;
  return (
    <p>
      <button
        type="button"
        className="word"
        onClick={() => actOnView('Section laid', { section: [-half, 0, half, 0] })}
      >
        lay a section across the middle
      </button>
    </p>
  );
}
