import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Access } from '../../src/cli/serve/access.ts';
import { appServer } from '../../src/cli/serve/appServer.ts';
import { collectionServer } from '../../src/cli/serve/collection/collectionServer.ts';
import { spread } from '../../src/cli/serve/collection/plates.ts';
import { emptyGrid } from '../../src/core/geometry/index.ts';
import { prepareScan } from '../../src/core/pipeline.ts';
import { addressOf, openStore, type Store } from '../../src/store/database/open.ts';
import { putFiles } from '../../src/store/files.ts';
import { packFace, unpackFace } from '../../src/store/keptFace.ts';
import { removeScan } from '../../src/store/remove.ts';
import { keptFace } from '../../src/store/steps.ts';
import { verifiedPair } from '../../src/store/verifiedPair.ts';
import { fiveScans } from '../store/fiveScans.ts';
import { send } from './hostileRequests.ts';
import { ectype } from './run.ts';

const page = { type: 'text/html; charset=utf-8', bytes: Buffer.from('<p>the rooms</p>') };
const servers: Server[] = [];
let folder = '';
let store: Store;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'ectype-rooms-'));
  const ran = ectype('add', fiveScans(folder, 2500, 3), '--to', join(folder, 'seals'));
  expect(ran.status, ran.stderr).toBe(0);
  store = await openStore(addressOf(join(folder, 'seals')) as NonNullable<ReturnType<typeof addressOf>>);
}, 120_000);

afterAll(async () => {
  for (const server of servers) {
    server.closeAllConnections();
    server.close();
  }
  await store?.close();
  rmSync(folder, { recursive: true, force: true });
});

async function served(access: Access = {}): Promise<{ url: string; port: number }> {
  const verify = async (a: Uint8Array, b: Uint8Array) => verifiedPair(unpackFace(a), unpackFace(b), 'test');
  const server = appServer(new Map([['/', page]]), collectionServer(store, verify, page), access);
  servers.push(server);
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const { port } = server.address() as AddressInfo;
  return { url: `http://127.0.0.1:${port}`, port };
}

const post = (url: string, body: unknown, headers: Record<string, string> = {}): Promise<Response> =>
  fetch(url, {
    method: 'POST',
    headers: {
      'content-type': body instanceof Uint8Array ? 'application/octet-stream' : 'application/json',
      ...headers,
    },
    body: body instanceof Uint8Array ? new Uint8Array(body) : JSON.stringify(body),
  });

describe('beyond the loopback', () => {
  const token = 'a'.repeat(32);

  it('gives nothing to whoever shows no token, and all to whoever opened the address with it', async () => {
    const { url } = await served({ address: '127.0.0.1', token });
    for (const path of ['/', '/collection/', '/collection/all.json', '/?token=', `/?token=${token}x`])
      expect((await fetch(url + path)).status, path).toBe(401);
    expect((await fetch(`${url}/`, { headers: { cookie: 'ectype-token=wrong' } })).status).toBe(401);
    const first = await fetch(`${url}/collection/?token=${token}`, { redirect: 'manual' });
    expect(first.status).toBe(303);
    expect(first.headers.get('location')).toBe('/collection/');
    const cookie = first.headers.get('set-cookie') ?? '';
    expect(cookie).toMatch(/; HttpOnly; SameSite=Lax$/);
    const shown = { headers: { cookie: cookie.split(';')[0] } };
    expect(await (await fetch(`${url}/collection/`, shown)).text()).toBe('<p>the rooms</p>');
    expect((await fetch(`${url}/collection/all.json`, shown)).status).toBe(200);
    const order = { kind: 'note', members: [1], by: 'A', words: 'x', seen: 0 };
    expect((await post(`${url}/collection/decisions`, order)).status).toBe(401);
  });

  it('answers for the stated address alone', async () => {
    const { port } = await served({ address: '192.0.2.7', token });
    const asked = (host: string) =>
      send(
        { kind: '', bytes: Buffer.from(`GET /?token=${token} HTTP/1.1\r\nHost: ${host}\r\n\r\n`), stays: true },
        port,
      );
    expect(await asked(`192.0.2.7:${port}`)).toMatch(/ 303 /);
    for (const host of [`127.0.0.1:${port}`, `localhost:${port}`, '192.0.2.7', `192.0.2.7.example:${port}`])
      expect(await asked(host), host).toMatch(/ 421 /);
  });

  it.each([
    [['--address', '0.0.0.0'], /not every one at once/],
    [['--address', '::'], /not every one at once/],
    [['--address', 'seals.example'], /takes one address of this computer/],
    [['--address', '198.51.100.7'], /this computer has no such address/],
  ])('serve %j is wrong use, said in one line', (args, words) => {
    const ran = ectype('serve', '--port', '0', ...args);
    expect(ran.status).toBe(2);
    expect(ran.stderr).toMatch(words);
    expect(ran.stderr.trim().split('\n')).toHaveLength(1);
  });
});

describe('changes of a served collection', () => {
  it('are taken from the served pages alone, and no longer than they may be', async () => {
    const { url } = await served();
    const order = { kind: 'note', members: [1], by: 'A', words: 'x', seen: 0 };
    const to = `${url}/collection/decisions`;
    expect((await post(to, order, { origin: 'http://evil.example' })).status).toBe(403);
    expect((await post(to, order, { 'sec-fetch-site': 'cross-site' })).status).toBe(403);
    expect((await post(to, order, { 'content-type': 'text/plain' })).status).toBe(403);
    expect((await fetch(to, { method: 'PUT' })).status).toBe(405);
    expect((await post(`${url}/collection/searches`, new Uint8Array(5_000_000)).catch(() => null))?.status ?? 413).toBe(
      413,
    );
    for (const wrong of [
      {},
      { ...order, by: ' ' },
      { ...order, members: [] },
      { ...order, members: [1.5] },
      { ...order, kind: 'drop' },
    ])
      expect((await post(to, wrong)).status).toBe(400);
    expect((await post(to, { ...order, words: '' })).status).toBe(400);
    expect((await post(to, { ...order, kind: 'join' })).status).toBe(400);
    expect(await store.db.selectFrom('decisions').selectAll().execute()).toEqual([]);
  });

  it('show both versions to whoever did not know of the other, and then take the later one', async () => {
    const { url } = await served();
    const seen = async (): Promise<number> => (await (await fetch(`${url}/collection/all.json`)).json()).seen;
    const both = await seen();
    const name = (by: string, words: string, known: number) =>
      post(`${url}/collection/decisions`, { kind: 'name', members: [2, 3], by, words, seen: known });
    expect(await (await name('Anna', 'The oak', both)).json()).toEqual({ kept: true });
    const late = await name('Bela', 'The ash', both);
    expect(late.status).toBe(409);
    expect((await late.json()).newer).toMatchObject([{ by: 'Anna', words: 'The oak', members: ['2', '3'] }]);
    expect((await name('Bela', 'The ash', await seen())).status).toBe(200);
    const { groups } = await (await fetch(`${url}/collection/all.json`)).json();
    expect(groups.groups[0].name).toBe('The ash');
    expect(groups.groups[0].decisions.map(({ by }: { by: string }) => by)).toEqual(['Anna', 'Bela']);
  });
});

describe('a search of a served collection', () => {
  it('takes a face as it would be kept, and verifies a candidate; the very file is told apart', async () => {
    const { url } = await served();
    const bytes = readFileSync(join(folder, 'impression0.ply'));
    const packed = packFace(await prepareScan({ name: 'x.ply', bytes, kind: 'impression', unit: 'mm' }));
    const found = await (await post(`${url}/collection/searches`, packed)).json();
    expect(found.itself).toEqual([2]);
    expect(found.candidates[0]).toMatchObject({ scan: 3, likely: true });
    const verified = await post(`${url}/collection/verifications`, { query: found.query, scan: 3 });
    expect(await verified.json()).toMatchObject({ finding: 'supported', by: 'test', sentence: expect.any(String) });
    for (const order of [
      { query: '0'.repeat(64), scan: 3 },
      { query: found.query, scan: 99 },
      { a: 1, b: 99 },
    ])
      expect((await post(`${url}/collection/verifications`, order)).status).toBe(410);
  }, 60_000);

  it('refuses what is no face in a sentence', async () => {
    const { url } = await served();
    const huge = Buffer.from(JSON.stringify({ version: 1, grid: { width: 1e5, height: 1e5 } }));
    const head = Buffer.alloc(4);
    head.writeUInt32LE(huge.length);
    for (const bytes of [new Uint8Array(3), new Uint8Array(2000).fill(7), Buffer.concat([head, huge, huge])]) {
      const answer = await post(`${url}/collection/searches`, new Uint8Array(bytes));
      expect(answer.status).toBe(400);
      expect((await answer.json()).words).toBe('This is not a face as it is kept.');
    }
  });
});

describe('faces of a served collection', () => {
  const servedRelief = async (url: string, id: number) => {
    const bytes = new Uint8Array(await (await fetch(`${url}/collection/faces/${id}`)).arrayBuffer());
    return unpackFace(bytes).face.relief;
  };

  it.each([
    ['mould', 'intaglio', 0.2],
    // Wound the wrong way it shows a relief, and is a negative all the same.
    ['matrix', 'relief', 0.2],
    ['cast', 'relief', 0.1],
  ] as const)('of a %s that shows an %s leave at a pitch of %d mm', async (kind, sense, pitchMm) => {
    const { url } = await served();
    const grid = emptyGrid(-15, 15, -15, 15, 0.1);
    grid.mask.fill(1);
    grid.z.forEach((_, i) => {
      grid.z[i] = Math.sin(i / 7);
    });
    const plain = await keptFace(store, 1);
    const packed = packFace({ ...plain, kind, face: { ...plain.face, sense, relief: grid, image: grid } });
    const [relief] = await putFiles(store.folder, [['relief', packed]]);
    const { id } = await store.db
      .insertInto('scans')
      .values({ path: `/${kind}${sense}`, stamp: '', shelfmark: 'S', kind, state: 'ready' })
      .returning('id')
      .executeTakeFirstOrThrow();
    const { scan_id: _, ...face } = await store.db.selectFrom('faces').selectAll().executeTakeFirstOrThrow();
    const row = { ...face, scan_id: id, global: new Uint8Array(face.global), relief, sense };
    await store.db.insertInto('faces').values(row).execute();
    expect(unpackFace(packed).face.relief.pitch).toBeCloseTo(0.1, 6);
    expect((await servedRelief(url, id)).pitch).toBeCloseTo(pitchMm, 6);
    await removeScan(store, id, { by: 'test', at: '', words: '' });
  });

  it('of a group come with the turn of each, that lays its image on the first’s', () => {
    const pairs = [
      { from: 2, to: 1, turnDeg: 30 },
      { from: 2, to: 3, turnDeg: -100 },
      { from: 1, to: 3, turnDeg: 77 },
    ];
    // 2 turns by 30 onto 1; 3 turns by 100 onto 2, hence by 130 onto 1. The pair of 1 and 3 is the least sure and not asked.
    expect(spread(1, pairs)).toEqual({ 1: 0, 2: 30, 3: 130 });
    expect(spread(4, pairs)).toEqual({ 4: 0 });
  });
});

describe('a scan that is taken out', () => {
  it('is gone from tray, groups and pictures, and its file stays', async () => {
    const { url } = await served();
    const order = { scan: 3, by: 'Anna', words: 'scanned twice' };
    expect((await post(`${url}/collection/removals`, { ...order, by: '' })).status).toBe(400);
    expect((await post(`${url}/collection/removals`, order)).status).toBe(200);
    expect((await post(`${url}/collection/removals`, order)).status).toBe(410);
    const { scans, removed, groups } = await (await fetch(`${url}/collection/all.json`)).json();
    expect(scans.map(({ scan }: { scan: number }) => scan)).toEqual([1, 2]);
    expect(removed.at(-1)).toMatchObject({ shelfmark: 'Arch. 0, cast', by: 'Anna', words: 'scanned twice' });
    expect(groups.groups).toEqual([]);
    expect((await fetch(`${url}/collection/faces/3`)).status).toBe(404);
    expect(readFileSync(join(folder, 'cast0.ply')).length).toBeGreaterThan(0);
  });
});
