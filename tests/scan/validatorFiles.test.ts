import { describe, expect, it } from 'vitest';
import { Budget } from '../../src/core/scan/admission/budget.ts';
import { readGltf } from '../../src/core/scan/gltf/gltf.ts';
import { ScanError } from '../../src/core/scan/index.ts';
import { needing, realData, realFiles } from '../realData.ts';

/** What the validator says of one file; severity 0 is an error. */
interface Report {
  readonly issues: { readonly messages: ReadonlyArray<{ code: string; severity: number; pointer?: string }> };
  /** Absent where the validator could not open the file at all. */
  readonly info?: { readonly totalTriangleCount: number };
}

const folder = 'formats/gltf_validator';
const files = realFiles(folder).filter((path) => /\.gl(tf|b)$/.test(path));
const textOf = (path: string): string => new TextDecoder().decode(realData(path) ?? new Uint8Array(0));
const reportOf = (path: string): Report => JSON.parse(textOf(`${path}.report.json`)) as Report;

/** Triangles that the reader makes of the file, before any is mended away, or its refusal. */
async function outcome(path: string): Promise<number | ScanError> {
  const beside = path.slice(0, path.lastIndexOf('/') + 1);
  const buffers = realFiles(folder).filter((name) => name.endsWith('.bin') && name.startsWith(beside));
  const handedIn = Object.fromEntries(
    buffers.map((name) => [name.slice(beside.length), realData(name) ?? new Uint8Array(0)]),
  );
  try {
    const surface = await readGltf(realData(path) ?? new Uint8Array(0), handedIn, new Budget(1e5));
    return surface.triangles.length / 3;
  } catch (error) {
    if (error instanceof ScanError) return error;
    throw error;
  }
}

/**
 * Errors behind which a surface cannot be read, by their code and the place in the document: what names no vertex, no mesh, no
 * node, or positions of another kind, and a container whose lengths do not add up. Every other error is tolerated, as it
 * touches what a scan does not need: materials, cameras, skins, morph targets, colours, stated bounds, alignment, entries that
 * nothing shows, a mark of the byte order, chunks listed twice.
 */
const unreadable: ReadonlyArray<readonly [code: RegExp, pointer: RegExp]> = [
  [/^GLB_(CHUNK_TOO_BIG|LENGTH_MISMATCH)$/, /^$/],
  [/^UNRESOLVED_REFERENCE$/, /^\/meshes\/\d+\/primitives\/\d+\/(indices|attributes\/POSITION)$/],
  [/^UNRESOLVED_REFERENCE$/, /^\/nodes\/\d+\/(mesh|children\/\d+)$/],
  [/^UNRESOLVED_REFERENCE$/, /^\/scenes\/\d+\/nodes\/\d+$/],
  [/^UNDEFINED_PROPERTY$/, /^\/meshes\/\d+$/],
  [/^MESH_PRIMITIVE_ATTRIBUTES_ACCESSOR_INVALID_FORMAT$/, /\/POSITION$/],
  [/^ACCESSOR_INDEX_OOB$/, /./],
];

/** A loop of nodes is met only where the scene shows it. */
const shownLoop = (report: Report): boolean =>
  ['NODE_LOOP', 'SCENE_NON_ROOT_NODE'].every((code) => report.issues.messages.some((message) => message.code === code));

const isUnreadable = (report: Report): boolean =>
  report.info === undefined ||
  shownLoop(report) ||
  report.issues.messages.some(
    ({ code, severity, pointer = '' }) =>
      severity === 0 && unreadable.some(([codes, places]) => codes.test(code) && places.test(pointer)),
  );

/** A .gltf in which a buffer has no address: its data are not there. */
function lacksData(path: string): boolean {
  if (!path.endsWith('.gltf')) return false;
  const { buffers } = JSON.parse(textOf(path).replace(/^\ufeff/, '')) as { buffers?: Array<{ uri?: string }> };
  return Array.isArray(buffers) && buffers.some((buffer) => buffer?.uri === undefined);
}

/** Counted by the validator, yet without a vertex: no positions, or a mesh beside the nodes that nothing shows. */
const nothingShown = ['mesh/primitive_no_position.gltf', 'json/integer_written_as_float.gltf'];

const trianglesShown = (path: string, report: Report): number =>
  nothingShown.some((name) => path.endsWith(name)) ? 0 : (report.info?.totalTriangleCount ?? 0);

describe.skipIf(files.length === 0)(needing(folder, 'deliberate glTF mistakes, by their reports'), () => {
  const reports = files.map((path) => ({ path, report: reportOf(path) }));
  const bad = reports.filter(({ report }) => isUnreadable(report));
  const lacking = reports.filter(({ path, report }) => !isUnreadable(report) && lacksData(path));
  const good = reports.filter(({ path, report }) => !isUnreadable(report) && !lacksData(path));

  it('are all there, and neither all to be refused nor all to be read', () => {
    expect(files.length).toBe(179);
    expect(bad.length).toBeGreaterThan(30);
    expect(good.filter(({ report }) => (report.info?.totalTriangleCount ?? 0) > 0).length).toBeGreaterThan(30);
  });

  it('a file without which there is no surface to be had is refused in a sentence', async () => {
    for (const { path } of bad) {
      const result = await outcome(path);
      expect(result, path).toBeInstanceOf(ScanError);
      if (result instanceof ScanError) expect(['malformed', 'truncated', 'unsupported'], path).toContain(result.code);
    }
  });

  it('a file that is valid, or wrong in what a scan does not need, is read: every triangle that it counts', async () => {
    for (const { path, report } of good) {
      expect(await outcome(path), path).toBe(trianglesShown(path, report));
    }
  });

  it('where the data are not there the file is cut short, if anything of it is shown', async () => {
    for (const { path, report } of lacking) {
      const result = await outcome(path);
      if (result instanceof ScanError) expect(result.code, path).toBe('truncated');
      else expect(result, path).toBe(trianglesShown(path, report));
    }
  });
});
