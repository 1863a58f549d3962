import { readFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { type Manifest, type ManifestRow, readManifest } from '../store/manifest.ts';
import { UsageError } from './errors.ts';
import type { Values } from './options.ts';

const read = new Map<string, Manifest>();

/** The manifest at a path, read once. Throws UsageError where there is none. */
export function manifestAt(path: string): Manifest {
  const known = read.get(path);
  if (known) return known;
  let text: string;
  try {
    text = readFileSync(path, 'utf8');
  } catch {
    throw new UsageError(`${path}: the manifest cannot be read; check the name.`);
  }
  const manifest = readManifest(text);
  if (manifest.rows.length === 0)
    throw new UsageError(`${path}: ${manifest.errors[0]?.words ?? 'there is no row in it; write one for each scan.'}`);
  read.set(path, manifest);
  return manifest;
}

/** What the manifest of `--manifest` states of this file, over what the options state of all. */
export function withManifest(path: string, values: Values): Values {
  if (typeof values.manifest !== 'string') return values;
  const folder = dirname(values.manifest);
  const { rows, errors } = manifestAt(values.manifest);
  const isThis = ({ file }: { file: string | null }): boolean => resolve(folder, file ?? '') === resolve(path);
  const row = rows.find(isThis);
  if (row) return { ...values, ...stated(row) };
  const refused = errors.find(isThis);
  throw new UsageError(
    `${values.manifest}: ${refused?.words ?? `${path} stands in no row; add it, or leave out --manifest.`}`,
  );
}

/** A row as options; what it leaves empty is left to them. */
function stated({ kind, unit, material, scale_uncertainty }: ManifestRow): Values {
  return {
    ...(kind && { kind }),
    ...(unit && { unit }),
    ...(material && { material }),
    ...(scale_uncertainty !== null && { 'scale-uncertainty': String(scale_uncertainty) }),
  };
}
