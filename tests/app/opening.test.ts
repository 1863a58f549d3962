import { describe, expect, it } from 'vitest';
import { type Document, emptyDocument, onlyOpening, type ScanEntry } from '../../src/app/state/document.ts';

const scan = (id: string, opening?: boolean): ScanEntry => ({
  ...{ id, name: `${id}.glb`, stated: {}, title: id },
  ...(opening && { opening }),
});
const opened: Document = { ...emptyDocument, scans: [scan('a', true), scan('b', true)] };

describe('the pair that the page lays out itself', () => {
  it('makes room as long as nothing else lies there and nothing was written or drawn on it', () => {
    expect(onlyOpening(opened)).toBe(true);
    expect(onlyOpening({ ...opened, view: { ...opened.view, outlines: false } })).toBe(true);
    expect(onlyOpening({ ...opened, scans: [...opened.scans, scan('own')] })).toBe(false);
    expect(onlyOpening(emptyDocument)).toBe(false);
  });

  it.each<Partial<Document>>([
    { conclusion: { text: 'so', by: 'A', on: '2025-01-01' } },
    { firstReading: { text: 'so', by: '', on: '2025-01-01' } },
    { landmarks: [[0, 0]] },
    { start: { from: 'turn', turnDeg: 20 } },
    { pairs: [{ id: 'p', reference: [0, 0], subject: null }] },
    { ownMarks: [{ id: 'm', label: 'm', outline: [] }] },
    { slides: [{ id: 's', question: '', caption: '', reveals: false, view: opened.view }] },
  ])('stays where something of the user’s would be lost: %o', (change) => {
    expect(onlyOpening({ ...opened, ...change })).toBe(false);
  });
});
