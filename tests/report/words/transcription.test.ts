import { describe, expect, it } from 'vitest';
import type { TranscriptionFault } from '../../../src/core/read/index.ts';
import { transcriptionWords } from '../../../src/core/report/words/index.ts';
import { type ExamplesOf, expectPrintable, expectSentence } from './said.ts';

const faults: ExamplesOf<TranscriptionFault> = {
  shape: [
    { code: 'shape', path: 'items.0', message: 'Invalid input' },
    { code: 'shape', path: '', message: 'Invalid input' },
  ],
  noSource: [{ code: 'noSource' }],
  needlessSource: [{ code: 'needlessSource' }],
  unknownSource: [{ code: 'unknownSource', id: 'W9' }],
  otherSource: [{ code: 'otherSource', id: 'W1', wanted: 'person' }],
  notOneLetter: [{ code: 'notOneLetter', text: '[' }],
  openLigature: [{ code: 'openLigature' }],
  tracesInARow: [{ code: 'tracesInARow' }],
  estimateOfUnknown: [{ code: 'estimateOfUnknown' }],
  followsNoLetter: [{ code: 'followsNoLetter' }],
  expansionsInARow: [{ code: 'expansionsInARow' }],
  bracketInExpansion: [{ code: 'bracketInExpansion' }],
  dashesAsExpansion: [{ code: 'dashesAsExpansion' }],
  spaceRoundExpansion: [{ code: 'spaceRoundExpansion' }],
  sameSourceId: [{ code: 'sameSourceId' }],
};

describe('faults of a transcription', () => {
  it.each(Object.values(faults).flat())('are sentences, but for the message of the schema: %j', (fault) => {
    const words = transcriptionWords(fault);
    if (fault.code === 'shape') expectPrintable(words);
    else expectSentence(words.replace(/^"\[" /, 'A '));
  });

  it('name the source, the letter, and the part that has another shape', () => {
    const said = Object.values(faults).flat().map(transcriptionWords);
    expect(said).toContain('There is no source W9.');
    expect(said).toContain('The source W1 is not a person.');
    expect(said).toContain('"[" cannot stand as one letter.');
    expect(said).toContain('items.0: Invalid input');
    expect(said).toContain('transcription: Invalid input');
    expect(new Set(said).size).toBe(said.length);
  });
});
