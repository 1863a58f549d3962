import { transformSync } from 'esbuild';

/** One change of the program text: in which file, from where, what stood there and what is put. */
export interface Mutant {
  readonly file: string;
  readonly at: number;
  readonly find: string;
  readonly put: string;
  readonly operator: string;
}

interface Operator {
  readonly name: string;
  readonly find: RegExp;
  readonly put: (match: RegExpMatchArray) => string;
}

const swap =
  (...pairs: ReadonlyArray<readonly [string, string]>) =>
  (match: RegExpMatchArray): string =>
    pairs.find(([from]) => from === match[0])?.[1] ?? match[0];

/** What a mutant does to one place. Each is a slip that a person makes and that the types let pass. */
const operators: readonly Operator[] = [
  {
    name: 'sign',
    find: / [+-] | [+-]= /g,
    put: swap([' + ', ' - '], [' - ', ' + '], [' += ', ' -= '], [' -= ', ' += ']),
  },
  { name: 'sign', find: /(?<=[(,=:?] ?)-(?=[a-zA-Z(])/g, put: () => '' },
  { name: 'unit', find: / [*/] (?=1000|180|Math\.PI|pitch|\w*Mm\b)/g, put: swap([' * ', ' / '], [' / ', ' * ']) },
  {
    name: 'comparison',
    find: / [<>]=? /g,
    put: swap([' < ', ' > '], [' > ', ' < '], [' <= ', ' >= '], [' >= ', ' <= ']),
  },
  {
    name: 'boundary',
    find: / [<>]=? /g,
    put: swap([' < ', ' <= '], [' > ', ' >= '], [' <= ', ' < '], [' >= ', ' > ']),
  },
  // Not the length of a typed array (more than is needed changes nothing), nor guards against a division by nothing.
  {
    name: 'threshold × 1.5',
    find: /(?<!Array\()(?<![\w.$])\d+(\.\d+)?(e-?\d+)?(?![\w.$])/g,
    put: ([text]) => times(text, 1.5),
  },
  {
    name: 'negation',
    find: / [!=]== | && | \|\| /g,
    put: swap([' === ', ' !== '], [' !== ', ' === '], [' && ', ' || '], [' || ', ' && ']),
  },
  { name: 'negation', find: /(?<=[:=(] ?)(true|false)\b/g, put: swap(['true', 'false'], ['false', 'true']) },
  { name: 'off by one', find: /(?<=\[[^\]\n]*) [+-] 1(?=\])|(?<=; \w+ < [^;\n]*) - 1(?=;)/g, put: () => '' },
  { name: 'off by one', find: /(?<=\[\w+)(?=\])/g, put: () => ' + 1' },
  {
    name: 'arguments',
    find: /\b(compose|Math\.atan2|invert|Math\.m(?:in|ax)|Math\.(?:sin|cos))\(([\w.]+)(?:, ([\w.]+))?\)/g,
    put: exchanged,
  },
];

/** A number that types and formatter accept; 0 and 1 are left, since they are mostly no thresholds, and what is all but 0. */
function times(text: string, factor: number): string {
  const value = Number(text);
  return value === 0 || value === 1 || value > 1e6 || value < 1e-6
    ? text
    : String(Number((value * factor).toPrecision(6)));
}

function exchanged([text, name, first, second]: RegExpMatchArray): string {
  if (name === 'invert') return first;
  if (name === 'Math.sin' || name === 'Math.cos')
    return text.replace(name, name === 'Math.sin' ? 'Math.cos' : 'Math.sin');
  if (second === undefined) return text;
  if (name === 'Math.min' || name === 'Math.max')
    return text.replace(name, name === 'Math.min' ? 'Math.max' : 'Math.min');
  return `${name}(${second}, ${first})`;
}

export const mutated = (text: string, { at, find, put }: Mutant): string =>
  text.slice(0, at) + put + text.slice(at + find.length);

/** Every mutant of one file, outside comments, quotes and imports; whether the running program `differs` is asked of each that is drawn. */
export function mutantsOf(file: string, text: string): Mutant[] {
  const blind = text.replaceAll(
    /\/\*[\s\S]*?\*\/|\/\/.*$|'(?:[^'\\\n]|\\.)*'|`[^`]*`|^(?:import|export) [^;]*? from .*$/gm,
    (hidden) => hidden.replaceAll(/[^\n]/g, '\u0001'),
  );
  return operators.flatMap(({ name, find, put }) =>
    [...blind.matchAll(find)].flatMap((match): Mutant[] => {
      const mutant = { file, at: match.index, find: match[0], put: put(match), operator: name };
      return mutant.put !== mutant.find && (name !== 'boundary' || isCounted(blind, mutant)) ? [mutant] : [];
    }),
  );
}

/** What is counted and not measured, at the end and at the beginning of a side: a whole number, a length, a number of things, an index. */
const counted = String.raw`\d+|\w*([lL]ength|[sS]ize|[cC]ounts?|[cC]ols?|[rR]ows?|[cC]olumns|width|height|[iI]ndex|[sS]teps?|[rR]ounds?|[pP]laces)|[ijklmnpqrc]`;
const countedBefore = new RegExp(String.raw`(?<![\w.)\]])([\w.]+\.)?(${counted})$`);
const countedAfter = new RegExp(String.raw`^([\w.]+\.)?(${counted})(?![\w.([])`);

/** Whether both sides of a comparison are counted: then `<` and `<=` differ. Two measured numbers are hardly ever equal, and the slip changes nothing. */
const isCounted = (blind: string, { at, find }: Mutant): boolean =>
  countedBefore.test(blind.slice(Math.max(0, at - 80), at)) &&
  countedAfter.test(blind.slice(at + find.length, at + find.length + 80));

const plain = new Map<string, string>();

/** False where only a type changed, or where what comes out is no program. */
export function differs(text: string, mutant: Mutant): boolean {
  const run = (source: string): string => transformSync(source, { loader: 'ts', minifySyntax: true }).code;
  const before = plain.get(text) ?? run(text);
  plain.set(text, before);
  try {
    return run(mutated(text, mutant)) !== before;
  } catch {
    return false;
  }
}
