import { useEffect, useRef } from 'react';
import { type Item, type SignName, signNames, signs, suggestionsFor } from '../../../core/read/index.ts';
import { transcribe, transcribed } from '../state/acts.ts';
import { useScan } from '../state/current.ts';
import { counted, penWithin, signKeys, solved, wordBefore } from '../state/pen.ts';
import { setRead, useRead } from '../state/readStore.ts';
import { itemWords } from '../state/words.ts';
import { Source } from './Source.tsx';
import { type Desk, endExpansion, stateKeys, writeSign } from './typing.ts';
import { useDesk } from './useDesk.ts';

/** The letter before the pen and what can be said of it; each word also has its key on the strip. */
export function LetterWords() {
  const { legend } = useScan();
  const desk = useDesk();
  const raw = useRead((state) => state.pen);
  if (!desk) return null;
  const { items } = legend.transcription;
  const pen = penWithin(items, desk.ring, raw);
  const item = items[pen.at - 1];
  return (
    <>
      <h3>Letter</h3>
      {item && <p>{itemWords(item)}</p>}
      <p className="key-row">
        {stateKeys.map(({ key, words, run }) => (
          <button key={key} type="button" className="word" aria-pressed={holds(item, key)} onClick={() => run(desk)}>
            <kbd>{key}</kbd>
            {words}
          </button>
        ))}
      </p>
      <Expanding desk={desk} />
      <Suggestions desk={desk} />
      {item?.kind === 'gap' && <Counting desk={desk} gap={item} at={pen.at} />}
      {item && 'source' in item && item.source && <Source desk={desk} index={pen.at - 1} source={item.source} />}
      <p className="key-row sign-row">
        {signNames.map((name: SignName) => (
          <button
            key={name}
            type="button"
            className="word"
            title={`${signs[name].words}${keyOf[name] ? `, key ${keyOf[name]}` : ''}`}
            aria-label={signs[name].words}
            onClick={() => writeSign(desk, name)}
          >
            {signs[name].glyph}
          </button>
        ))}
      </p>
    </>
  );
}

const keyOf: Partial<Record<SignName, string>> = Object.fromEntries(
  Object.entries(signKeys).map(([key, name]) => [name, key]),
);

const held: Readonly<Record<string, (item: Item) => boolean>> = {
  '?': (item) => 'state' in item && item.state === 'doubtful',
  '[': (item) => 'state' in item && item.state === 'supplied',
  '<': (item) => 'state' in item && item.state === 'omitted',
  '{': (item) => 'state' in item && item.state === 'superfluous',
  '&': (item) => item.kind === 'letter' && item.joined === true,
  '!': (item) => item.kind === 'letter' && item.reversed === true,
};
const holds = (item: Item | undefined, key: string): boolean | undefined =>
  held[key] === undefined ? undefined : Boolean(item && held[key](item));

/** What the letters before the pen stand for, while it is typed. */
function Expanding({ desk }: { desk: Desk }) {
  const text = useRead((state) => state.expanding);
  const field = useRef<HTMLInputElement>(null);
  const open = text !== null;
  useEffect(() => {
    if (open) field.current?.focus();
  }, [open]);
  if (text === null) return null;
  const back = (): void => document.querySelector<HTMLElement>('.strip-desk')?.focus();
  return (
    <p>
      <label>
        <span className="soft">The letters not written: </span>
        <input
          ref={field}
          type="text"
          value={text}
          placeholder="igillum"
          onChange={(event) => setRead({ expanding: event.target.value })}
          onKeyDown={(event) => {
            if (event.key !== 'Enter' && event.key !== 'Escape') return;
            event.preventDefault();
            if (event.key === 'Enter') endExpansion(desk, text);
            else setRead({ expanding: null });
            back();
          }}
        />
      </label>{' '}
      <button type="button" className="word plain" onClick={() => endExpansion(desk, null)}>
        not solved
      </button>
    </p>
  );
}

/** What the word before the pen is often short for. */
function Suggestions({ desk }: { desk: Desk }) {
  const { legend } = useScan();
  const { transcription } = legend;
  const pen = penWithin(
    transcription.items,
    desk.ring,
    useRead((state) => state.pen),
  );
  const [from, to] = wordBefore(transcription.items, pen.at);
  const word = transcription.items.slice(from, to);
  const words = word.some((item) => item.kind === 'expansion') ? [] : suggestionsFor(word);
  const useful = words.filter((suggestion) => suggestion.includes('('));
  if (useful.length === 0) return null;
  return (
    <p className="key-row">
      <span className="soft">Perhaps</span>
      {useful.map((suggestion) => (
        <button
          key={suggestion}
          type="button"
          className="word plain"
          onClick={() => transcribed(desk.scanId, 'Abbreviation solved', solved(transcription, pen, suggestion))}
        >
          {suggestion}
        </button>
      ))}
    </p>
  );
}

function Counting({ desk, gap, at }: { desk: Desk; gap: Extract<Item, { kind: 'gap' }>; at: number }) {
  const { legend } = useScan();
  const how = gap.quantity === null ? 'unknown' : gap.about ? 'about' : 'exact';
  const words = { exact: 'exactly so many', about: 'about so many', unknown: 'unknown how many' } as const;
  return (
    <p className="key-row">
      {(['exact', 'about', 'unknown'] as const).map((each) => (
        <button
          key={each}
          type="button"
          className="word"
          aria-pressed={how === each}
          onClick={() => transcribe(desk.scanId, 'Number of letters', counted(legend.transcription, at, each))}
        >
          {words[each]}
        </button>
      ))}
    </p>
  );
}
