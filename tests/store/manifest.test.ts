import { describe, expect, it } from 'vitest';
import { readManifest } from '../../src/store/manifest.ts';

const head = 'file,shelfmark,kind,unit,scale_uncertainty,cast_of';

describe('a manifest', () => {
  it('gives its rows, empty cells as null, numbers as numbers', () => {
    const { rows, errors } = readManifest(
      `${head}\r\na.ply,"Hd 1, no 2",impression,mm,0.5,\r\nb.ply,Hd 2,cast,,,a.ply\r\n`,
    );
    expect(errors).toEqual([]);
    expect(rows).toMatchObject([
      {
        line: 2,
        file: 'a.ply',
        shelfmark: 'Hd 1, no 2',
        kind: 'impression',
        unit: 'mm',
        scale_uncertainty: 0.5,
        cast_of: null,
      },
      { line: 3, file: 'b.ply', kind: 'cast', unit: null, scale_uncertainty: null, cast_of: 'a.ply', seal: null },
    ]);
  });

  it.each([';', '\t'])(
    'is read with %j between its cells, a mark of the byte order in front and spaces round names',
    (separator) => {
      const csv = `\ufeffFile , shelfmark,KIND\na.ply,Hd 1,cast\n`.replaceAll(',', separator);
      expect(readManifest(csv).rows).toMatchObject([{ file: 'a.ply', shelfmark: 'Hd 1', kind: 'cast' }]);
    },
  );

  it('says one sentence a row that cannot be used, with its number, and goes on', () => {
    const { rows, errors } = readManifest(
      `${head}\na.ply,Hd 1,seal,mm,,\n,Hd 2,cast,,,\nc.ply,Hd 3,cast,ell,-1,\nd.ply,Hd 4,cast,,,\nd.ply,Hd 5,cast,,,\n`,
    );
    expect(rows.map(({ file }) => file)).toEqual(['d.ply']);
    expect(errors.map(({ line }) => line)).toEqual([2, 3, 4, 6]);
    expect(errors[0].words).toMatch(/^row 2, a\.ply: kind is not one of matrix, mould, impression, cast; .*\.$/);
    expect(errors[1].words).toMatch(/^row 3: the column file is empty; /);
    expect(errors[2].words).toMatch(/unit is not one of .*; scale_uncertainty is no percentage/);
    expect(errors[3].words).toMatch(/the same file stands in row 5/);
    for (const { words } of errors) expect(words).not.toMatch(/\n/);
  });

  it('without its first columns is one error of row 1; a column it does not have is said and passed over', () => {
    expect(readManifest('file;kind\na;cast\n').errors).toMatchObject([
      { line: 1, words: expect.stringMatching(/lacks shelfmark/) },
    ]);
    const { rows, errors } = readManifest('file,shelfmark,kind,colour\na,b,cast,red\n');
    expect(rows).toHaveLength(1);
    expect(errors[0].words).toMatch(/colour is no column/);
  });

  it('an open quotation mark spoils its own row only as far as it reaches, and is said', () => {
    const { errors } = readManifest('file,shelfmark,kind\na,b,cast\n"c,d,cast\n');
    expect(errors[0].words).toMatch(/quotation mark is not closed/);
  });
});
