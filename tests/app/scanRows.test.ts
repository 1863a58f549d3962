import { describe, expect, it } from 'vitest';
import { inNeedFirst, scanRows } from '../../src/app/bringIn/scanRows.ts';
import { keyOf, type ScanEntry } from '../../src/app/state/document.ts';
import type { Faces } from '../../src/app/state/seats.ts';
import type { Kind } from '../../src/core/scan/index.ts';

const scan = (id: string, kind?: Kind): ScanEntry => ({
  id,
  name: `${id}.ply`,
  stated: { kind },
  title: `Charter ${id}`,
});
const scans = [scan('10'), scan('9', 'matrix'), scan('2'), scan('3'), scan('4')];
const faces = {
  '10': { at: 'ready', key: keyOf(scans[0]), value: { kind: 'cast', outline: { widthMm: 20, heightMm: 40 } } },
  '9': { at: 'ready', key: keyOf(scans[1]), value: { kind: 'impression', outline: { widthMm: 60, heightMm: 30 } } },
  '3': { at: 'failed', key: keyOf(scans[3]), failure: { ok: false, code: 'truncated', message: '' } },
  '4': { at: 'failed', key: keyOf(scans[4]), failure: { ok: false, code: 'unitNeeded', message: '' } },
} as unknown as Faces;
const ids = (...asked: [words: string, order: Parameters<typeof scanRows>[3]]): string[] =>
  scanRows(scans, faces, ...asked).rows.map(({ id }) => id);

describe('the tray of the app', () => {
  it('parts what cannot be read from what is not read yet or asks for its unit', () => {
    expect(scanRows(scans, faces, '', 'name').unreadable.map(({ id }) => id)).toEqual(['3']);
    expect(ids('', 'name')).toEqual(['2', '4', '9', '10']);
  });
  it('sorts by kind as stated before as seen, and by size, the unknown last', () => {
    expect(ids('', 'kind')).toEqual(['10', '9', '2', '4']);
    expect(ids('', 'size')).toEqual(['9', '10', '2', '4']);
  });
  it('puts on top, among cards, what asks or cannot be read, and leaves the others as they came', () => {
    expect(inNeedFirst(scans, faces).map(({ id }) => id)).toEqual(['4', '3', '10', '9', '2']);
  });
  it('finds every word in caption, file or kind', () => {
    expect(ids('charter MATRIX', 'name')).toEqual(['9']);
    expect(ids('10.ply', 'name')).toEqual(['10']);
    expect(ids('charter mould', 'name')).toEqual([]);
  });
});
