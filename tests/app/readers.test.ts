import { beforeEach, describe, expect, it } from 'vitest';
import { legendNow, transcribe } from '../../src/app/read/state/acts.ts';
import { leaveOut, nameReader, openReading, putAside, takeUp } from '../../src/app/read/state/readers.ts';
import { undo, useStore } from '../../src/app/state/store.ts';
import { itemsOfLeiden, leidenText, type Transcription, toTei } from '../../src/core/read/index.ts';
import { freshState } from './freshState.ts';

const read = (leiden: string): Transcription => ({ language: 'fro', items: itemsOfLeiden(leiden), sources: [] });
const now = (): string => leidenText(legendNow('a').transcription.items);
const aside = (): string[] =>
  (legendNow('a').aside ?? []).map(({ name, transcription }) => `${name}: ${leidenText(transcription.items)}`);
const file = (text: string, name = 'b.xml'): File => new File([text], name);
const header = { title: 'A', publication: 'B', sourceDescription: 'C' };

beforeEach(() => {
  freshState();
  transcribe('a', 'Typed', read('SEEL'));
  nameReader('a', 'Ada');
});

describe('readings put aside', () => {
  it('leave an empty strip in their language, and come back whole', () => {
    putAside('a');
    expect([now(), legendNow('a').transcription.language, legendNow('a').reader]).toEqual(['', 'fro', '']);
    expect(aside()).toEqual(['Ada: SEEL']);
    takeUp('a', 0);
    expect([now(), legendNow('a').reader, aside()]).toEqual(['SEEL', 'Ada', []]);
  });

  it('change places with what is written meanwhile, and nothing is lost', () => {
    putAside('a');
    transcribe('a', 'Typed', read('SEAL'));
    takeUp('a', 0);
    expect([now(), aside()]).toEqual(['SEEL', ['a reader without a name: SEAL']]);
    leaveOut('a', 0);
    expect(aside()).toEqual([]);
    undo();
    expect(aside()).toHaveLength(1);
  });
});

describe('a reading from TEI', () => {
  it('is written on where nothing is written, else put aside under its reader, or its file', async () => {
    putAside('a');
    await openReading('a', file(toTei(read('S[E]AL'), { ...header, reader: 'Bo' })));
    expect([now(), legendNow('a').reader]).toEqual(['S[E]¹AL', 'Bo']);
    await openReading('a', file(toTei(read('SOEL'), header)));
    expect(now()).toBe('S[E]¹AL');
    expect(aside()).toEqual(['Ada: SEEL', 'b.xml: SOEL']);
  });

  it.each(['', '<TEI/>', '<msDesc/>', '{"a": 1}', '<TEI><teiHeader/><text><body/></text></TEI>', 'x'.repeat(3e6)])(
    'changes nothing where the file holds none: %#',
    async (text) => {
      await openReading('a', file(text));
      expect(now()).toBe('SEEL');
      expect(useStore.getState().notice).toMatch(/^b\.xml: [A-Z].*\.$/);
    },
  );
});
