import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';

/** Files made by others: in the folder that ECTYPE_DATA names, else in shared/data beside the project. */
const folder = process.env.ECTYPE_DATA ?? resolve(import.meta.dirname, '../../shared/data');

/** Where the files made by others are; null where they are not at hand. */
export const dataFolder = (): string | null => (existsSync(folder) ? folder : null);

/** The bytes of a file of the test data, or null where it is not there. */
export function realData(path: string): Uint8Array | null {
  const file = join(folder, path);
  return existsSync(file) && statSync(file).isFile() ? new Uint8Array(readFileSync(file)) : null;
}

/** The paths of all files below a folder of the test data, sorted; none where it is not there. */
export function realFiles(path: string): string[] {
  const root = join(folder, path);
  if (!existsSync(root)) return [];
  return readdirSync(root, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)))
    .sort();
}

/** A test title that says which file it needs, for tests that are skipped where the data are not at hand. */
export const needing = (path: string, title: string): string => `${title} [needs ${path} from the test data]`;

/** How many tests of such files each test file is known to hold, where all of them are at hand. */
export const knownRealTests: Readonly<Record<string, number>> = {
  'tests/app/admission.test.ts': 1,
  'tests/compare/realPairs.test.ts': 6,
  'tests/condition/states/realStates.test.ts': 3,
  'tests/condition/wear/blurredCoin.test.ts': 1,
  'tests/read/light.test.ts': 1,
  'tests/reference/rangeScans.test.ts': 3,
  'tests/reference/realPairs.test.ts': 6,
  'tests/reference/sameTool.test.ts': 4,
  'tests/scan/givenUnit.test.ts': 1,
  'tests/scan/hostile.test.ts': 41,
  'tests/scan/realFiles.test.ts': 219,
  'tests/scan/validatorFiles.test.ts': 4,
};
