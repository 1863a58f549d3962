import { appendFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { XMLValidator } from 'fast-xml-parser';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { appServer } from '../../src/cli/serve/appServer.ts';
import { collectionServer } from '../../src/cli/serve/collection/collectionServer.ts';
import { addressOf, openStore } from '../../src/store/database/open.ts';
import { fiveScans } from '../store/fiveScans.ts';
import { ectype } from './run.ts';

let folder = '';
const path = (name: string): string => join(folder, name);
const json = (name: string) => JSON.parse(readFileSync(path(name), 'utf8'));
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'ectype-collection-'));
  appendFileSync(
    fiveScans(folder, 2500, 3),
    'gone.ply,Arch. 7,cast,mm,,\nimpression0.ply,Arch. 8,cast,mm,,\nx.ply,Arch. 9,seal,mm,,\n',
  );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('ectype add', () => {
  it('catalogues, indexes and verifies; a row that cannot be used is one sentence in a table, and the run is done', () => {
    const ran = ectype('add', path('manifest.csv'), '--to', path('seals'), '--json', path('added.json'));
    expect(ran.status, ran.stderr).toBe(0);
    expect(ran.stdout).toMatch(/^4 scans added, 0 made anew, 0 as they were\n3 errors, in .*errors\.csv:/);
    const { scans, errors } = json('added.json');
    expect(scans).toEqual({ added: 4, changed: 0, unchanged: 0 });
    expect(errors.map(({ line }: { line: number }) => line)).toEqual([5, 6, 7]);
    const table = readFileSync(path('seals/errors.csv'), 'utf8');
    expect(table).toMatch(/^row,file,error\r\n5,gone\.ply,"row 5, Arch\. 7: .*there is no such file/);
    expect(table).toMatch(/\r\n6,impression0\.ply,"row 6, impression0\.ply: the same file stands in row 3/);
    expect(table).toMatch(/\r\n7,x\.ply,"row 7, x\.ply: kind is not one of matrix/);
    // Of a few new scans it is said where they stand as soon as they do; nothing else.
    expect(ran.stderr).toMatch(
      /^([^\n]*: provisionally in group-\d+, with [^\n]*; the rest is verified behind it\n)*$/,
    );
  }, 120_000);

  it('again does again only what could not be done', () => {
    const ran = ectype('add', path('manifest.csv'), '--to', path('seals'));
    expect(ran.stdout).toMatch(/^0 scans added, 1 made anew, 3 as they were\n/);
    expect(ectype('worker', '--in', path('seals')).stdout).toBe('no job is left\n');
  }, 60_000);

  it.each([
    [['add', 'manifest.csv'], /name the collection: --to FOLDER/],
    [['add', 'nowhere.csv', '--to', 'new'], /manifest cannot be read/],
    [['add', 'matrix0.ply', '--to', 'new'], /row 1: the head lacks file, shelfmark, kind/],
    [['add', 'manifest.csv', '--to', 'other'], /holds other things than a collection/],
    [['add', 'manifest.csv', '--to', 'postgres://127.0.0.1/seals'], /names the folder of its files too/],
    [['find', 'matrix0.ply', '--in', 'nowhere'], /there is no collection in .*ectype add MANIFEST\.csv/],
    [['find', 'matrix0.ply', 'cast0.ply', '--in', 'seals'], /find takes one scan file/],
    [['find', 'matrix0.ply', '--in', 'seals', '--want', '0'], /--want takes a whole number/],
    [['worker', '--in', 'nowhere'], /there is no collection/],
    [['remove', 'Arch. 0', '--in', 'seals'], /say who takes it out with --by NAME/],
  ])('%j is wrong use, said in one line', (args, words) => {
    mkdirSync(path('other'), { recursive: true });
    writeFileSync(path('other/a.txt'), '');
    const ran = ectype(
      ...args.map((arg) => (/^(-|add$|find$|worker$|remove$|postgres|\d)/.test(arg) ? arg : path(arg))),
    );
    expect(ran.status).toBe(2);
    expect(ran.stderr).toMatch(words);
    expect(ran.stderr.trim().split('\n')).toHaveLength(1);
  });

  it('to a database that does not answer is an output that cannot be written', () => {
    const ran = ectype('add', path('manifest.csv'), '--to', `postgres://127.0.0.1:9/seals?files=${path('pg')}`);
    expect(ran.status).toBe(5);
    expect(ran.stderr).toMatch(/the database cannot be used: .*; start it or correct the address\.\n$/);
  });
});

describe('ectype find', () => {
  it('lists candidates best first, then verifies each as it comes; the file itself is none', () => {
    const ran = ectype(
      'find',
      path('impression0.ply'),
      '--in',
      path('seals'),
      '--unit',
      'mm',
      '--json',
      path('found.json'),
    );
    expect(ran.status, ran.stderr).toBe(0);
    const { candidates } = json('found.json');
    expect(candidates[0]).toMatchObject({ place: 1, shelfmark: 'Arch. 0, cast', kind: 'cast', likely: true });
    expect(candidates[0].verified).toMatchObject({ finding: 'supported', by: expect.stringMatching(/^ectype \d/) });
    expect(readFileSync(candidates[0].picture).subarray(1, 4).toString()).toBe('PNG');
    expect(candidates.map(({ shelfmark }: { shelfmark: string }) => shelfmark)).not.toContain('Arch. 0, impression');
    expect(ran.stdout).toMatch(/^ {2}1 +[\d.]+ {2}Arch\. 0, cast \(cast\): \d+ places agree/);
    expect(ran.stdout).toMatch(/\n {2}1 {2}supported \(strong\) {2}Arch\. 0, cast: /);
    expect(ran.stdout).not.toMatch(/match/i);
  }, 120_000);
});

describe('ectype group', () => {
  const group = (...args: string[]) => ectype('group', '--in', path('seals'), ...args);
  const two = 'Arch. 0, impression;Arch. 0, cast';

  it('gives groups with members, strength and weakest tie, and says first what a matrix does not say', () => {
    const ran = group('--json', path('groups.json'), '--csv', path('groups.csv'));
    expect(ran.status, ran.stderr).toBe(0);
    // How many pairs are worth verifying is the search's to say (tests/collection); scans of 2,500 vertices are coarse for it.
    expect(ran.stdout).toMatch(
      /^A shared matrix says nothing of who sealed\. .*\n1 group, 1 object in none; [1-3] pairs? verified; false merges/,
    );
    expect(ran.stdout).toContain('Arch. 0, cast is a cast of Arch. 0, impression or goes back to it (stated)');
    const { groups, single, by } = json('groups.json');
    expect(groups).toHaveLength(1);
    expect(groups[0].members.map(({ shelfmark }: { shelfmark: string }) => shelfmark)).toEqual(two.split(';'));
    expect(groups[0].members[0]).toMatchObject({
      kind: 'impression',
      documentDate: '1310',
      // Without a negative beside them nothing says how large the image was.
      imageLeft: null,
    });
    expect(groups[0]).toHaveProperty('strength');
    expect(groups[0]).toHaveProperty('weakest');
    expect(single.map(({ shelfmark }: { shelfmark: string }) => shelfmark)).toEqual(['Arch. 0, matrix']);
    expect(by).toMatch(/^ectype \d.*build/);
    expect(readFileSync(path('groups.csv'), 'utf8').trim().split('\r\n')).toHaveLength(4);
  });

  it('lets nothing out as a statement that nobody accepted, and then says who did, on what evidence', () => {
    const files = ['--jsonld', path('links.jsonld'), '--tei', path('links.xml')];
    expect(group(...files).status).toBe(0);
    expect(json('links.jsonld')['@graph']).toEqual([]);
    expect(readFileSync(path('links.xml'), 'utf8')).not.toContain('<relation ');
    expect(group(...files, '--join', two, '--by', 'A. <Keeper>', '--words', 'seen & agreed').status).toBe(0);
    const [statement] = json('links.jsonld')['@graph'];
    expect(statement['crm:P14_carried_out_by']['rdfs:label']).toBe('A. <Keeper>');
    expect(statement['crm:P33_used_specific_technique']['rdfs:label']).toMatch(/^ectype \d.*build/);
    expect(statement['crm:P3_has_note']).toEqual([
      expect.stringMatching(/^Evidence: strong, score \d/),
      'seen & agreed',
    ]);
    const tei = readFileSync(path('links.xml'), 'utf8');
    expect(XMLValidator.validate(tei)).toBe(true);
    expect(tei).toContain('<persName>A. &lt;Keeper&gt;</persName>');
  });

  it('keeps names and splits by hand, signed, and says them again', () => {
    expect(group('--name', 'Arch. 0, cast', '--words', 'The oak seal', '--by', 'B').status).toBe(0);
    expect(group().stdout).toContain('group-2 "The oak seal"');
    expect(group('--split', two, '--by', 'B').stdout).toContain('0 groups, 3 objects in none');
    expect(group('--join', two, '--by', 'B').stdout).toContain('1 group, 1 object in none');
    for (const [args, words] of [
      [['--join', two], /say who decides it with --by NAME/],
      [['--join', 'Arch. 0, cast', '--by', 'B'], /name two objects or more/],
      [['--name', 'Arch. 0, cast', '--by', 'B'], /give it with --words/],
      [
        ['--note', 'Nowhere 1', '--by', 'B', '--words', 'x'],
        /no object of the collection has the shelfmark "Nowhere 1"/,
      ],
      [['--by', 'B'], /belong to a decision/],
    ] as const) {
      const ran = group(...args);
      expect(ran.status).toBe(2);
      expect(ran.stderr).toMatch(words);
    }
  });
});

describe('ectype serve --in', () => {
  it('serves groups, scans and pictures of a collection beside the app, while others write, and nothing else of it', async () => {
    const store = await openStore(addressOf(path('seals')) as NonNullable<ReturnType<typeof addressOf>>);
    const page = { type: 'text/html; charset=utf-8', bytes: Buffer.from('<p>the rooms</p>') };
    const verify = () => Promise.reject(new Error('nothing is verified here'));
    const server = appServer(new Map(), collectionServer(store, verify, page));
    try {
      await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
      const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/collection/`;
      const { scans } = await (await fetch(`${url}scans.json`)).json();
      expect(scans.map(({ state }: { state: string }) => state)).toEqual(['ready', 'ready', 'ready', 'failed']);
      const picture = await fetch(url + scans[0].picture);
      expect(picture.headers.get('content-type')).toBe('image/png');
      expect(
        ectype('group', '--in', path('seals'), '--name', 'Arch. 0, cast', '--by', '<b>', '--words', '<i>Oak').status,
      ).toBe(0);
      expect(await (await fetch(url)).text()).toBe('<p>the rooms</p>');
      const told = await (await fetch(`${url}all.json`)).text();
      expect(JSON.parse(told).groups.caution).toContain('A shared matrix says nothing of who sealed.');
      expect(JSON.parse(told).groups.groups[0].name).toBe('<i>Oak');
      // Where the scans lie on this computer is nobody's business.
      expect(told).not.toContain(folder);
      expect((await (await fetch(`${url}groups.json`)).json()).groups).toHaveLength(1);
      for (const other of [
        'collection.sqlite',
        '../collection.sqlite',
        `pictures/${'0'.repeat(64)}.png`,
        'scans',
        'faces/99',
      ])
        expect((await fetch(url + other)).status).toBe(404);
    } finally {
      server.close();
      server.closeAllConnections();
      await store.close();
    }
  });
});

describe('--manifest', () => {
  it('states kinds and units by file to compare; a file that it lacks is refused', () => {
    writeFileSync(
      path('two.csv'),
      'file;shelfmark;kind;unit;material;scale_uncertainty\nmatrix0.ply;A;mould;mm;bronze;0.7\nimpression0.ply;B;cast;mm;plaster;\n',
    );
    const pair = ['compare', path('matrix0.ply'), path('impression0.ply'), '--manifest', path('two.csv')];
    expect(ectype(...pair, '--json', path('pair.json')).status).toBe(0);
    expect(json('pair.json')).toMatchObject({
      reference: { kind: 'mould', kindFrom: 'stated', unitFrom: 'stated' },
      subject: { kind: 'cast', kindFrom: 'stated', unitFrom: 'stated' },
    });
    const ran = ectype('compare', path('matrix0.ply'), path('cast0.ply'), '--manifest', path('two.csv'), '--json', '-');
    expect(ran.status).toBe(2);
    expect(ran.stderr).toMatch(/cast0\.ply stands in no row; add it, or leave out --manifest\.\n$/);
  }, 60_000);
});

describe('ectype remove', () => {
  it('takes a scan out, signed, and leaves its file; adding that again brings it back', () => {
    const remove = (...args: string[]) =>
      ectype('remove', 'Arch. 0, cast', '--in', path('seals'), '--by', 'B', ...args);
    const ran = remove('--words', 'a scan of the wrong cast');
    expect(ran.stdout).toMatch(/^Arch\. 0, cast is taken out; its file .*cast0\.ply stays where it is\.\n$/);
    expect(ectype('group', '--in', path('seals')).stdout).not.toContain('Arch. 0, cast');
    expect(remove().stderr).toMatch(/no object of the collection has the shelfmark/);
    expect(ectype('add', path('manifest.csv'), '--to', path('seals')).stdout).toMatch(/^1 scan added/);
  }, 60_000);
});
