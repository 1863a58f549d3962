import { relative } from 'node:path';
import { UsageError } from '../errors.ts';
import { filesRead } from '../files.ts';
import { type Content, type Files, filesList, filesListName, sha256 } from './filesList.ts';
import { isInside, type Place, placeOf } from './place.ts';
import { refuseFile, refuseFolder } from './refuse.ts';
import type { Made } from './staging.ts';
import { stamped, stampedAll } from './stamp.ts';
import { writeAll } from './writeAll.ts';

/** The outputs of one run: where they go is known before the work, what they are after it. */
export interface Outputs {
  /** Files of the run by names with forward strokes. They are written where a folder was planned; every file that this run writes is stamped with the hash of its record.json. */
  run(files: Files): void;
  file(stated: string, content: Content): void;
  /** Writes all of them aside, then puts each in its place at one stroke. Throws OutputError. */
  write(): Promise<void>;
}

export interface Planned {
  /** A folder that is made or replaced as a whole. */
  readonly folder?: string;
  readonly files?: ReadonlyArray<string | undefined>;
  /** Where the record goes as well; its folder must be there. "-" is standard output, and nobody's file. */
  readonly json?: string;
  /** Files that the run reads. */
  readonly inputs?: readonly string[];
}

/**
 * Refuses, before any work, outputs that are inputs, a folder that holds what no run made, places that cannot be
 * written or that another run is writing to. Files planned inside the folder become part of it.
 */
export function planOutputs({ folder, files = [], json, inputs = [] }: Planned): Outputs {
  const into = folder === undefined ? undefined : placeOf(folder);
  const record = json === undefined || json === '-' ? undefined : placeOf(json);
  const planned = [
    ...files.filter((file) => file !== undefined).map((file) => placeOf(file)),
    ...(record ? [record] : []),
  ];
  for (const [k, { path, stated }] of planned.entries())
    if (planned.findIndex((other) => other.path === path) < k)
      throw new UsageError(`${stated} is named for two outputs; give each its own name.`);
  const refuse = (read: Iterable<string>): void => {
    if (into) refuseFolder(into, read);
    for (const place of planned)
      if (!into || !isInside(place.path, into.path)) refuseFile(place, read, place === record);
  };
  refuse(inputs);
  let run: Files = new Map();
  const single = new Map<Place, Content>();
  return {
    run(contents) {
      run = contents;
    },
    file(stated, content) {
      single.set(placeOf(stated), content);
    },
    async write() {
      refuse(filesRead);
      await writeAll(gathered(into, run, single));
    },
  };
}

/** Single files that lie inside the folder put into it; each file stamped; the list of all added. */
function gathered(into: Place | undefined, run: Files, single: ReadonlyMap<Place, Content>): Map<Place, Made> {
  const files = new Map(run);
  const record = run.get('record.json');
  const hash = record === undefined ? undefined : sha256(record);
  const made = new Map<Place, Made>();
  for (const [place, content] of single)
    if (into && isInside(place.path, into.path)) addTo(files, place, relative(into.path, place.path), content);
    else made.set(place, hash === undefined ? content : stamped(place.path, content, hash));
  if (!into) return made;
  const done = stampedAll(files);
  return made.set(into, done.set(filesListName, filesList(done)));
}

function addTo(files: Map<string, Content>, { stated }: Place, path: string, content: Content): void {
  const name = path.replaceAll('\\', '/');
  if (name === filesListName || (files.has(name) && files.get(name) !== content))
    throw new UsageError(`${stated} is a file that --out writes as well; give another name.`);
  files.set(name, content);
}
