import { comparePrepared } from '../../../src/core/pipeline.ts';
import { ScanError } from '../../../src/core/scan/index.ts';
import { upperBound } from '../rows/rates.ts';
import { type Row, share } from '../table.ts';
import { firstDescent } from './first.ts';
import { type DescentCase, type DescentPair, descentCase, hasWitness, preparedOf } from './pairs.ts';
import { secondDescent } from './second.ts';

export const generators = { first: firstDescent, second: secondDescent } as const;
export type GeneratorName = keyof typeof generators;

interface Answer extends DescentCase {
  readonly pair: Omit<DescentPair, 'scans'>;
  readonly witness: boolean;
  readonly finding: string;
  readonly said: string;
  readonly shared: number;
}

/** What is said of the descent of pairs of two positives, from two files to the finding (docs/condition.md). */
export async function descentRows(
  name: GeneratorName,
  count: number,
  firstSeed: number,
  say: (line: string) => void,
  independentAlone = false,
): Promise<Row[]> {
  const list: Answer[] = [];
  const cases = Array.from({ length: count }, (_, k) => descentCase(firstSeed + k));
  const asked = independentAlone ? cases.filter(({ isCast }) => !isCast) : cases;
  for (const kind of asked) {
    const one = await answerOf(name, kind);
    if (one) {
      list.push(one);
      say(lineOf(one));
    } else say(`${kind.seed}: no face`);
  }
  return rowsOf(list, asked.length - list.length);
}

async function answerOf(name: GeneratorName, kind: DescentCase): Promise<Answer | null> {
  const pair = generators[name](kind);
  try {
    const [reference, subject] = await preparedOf(pair, kind);
    const { finding, descent, surfaces } = comparePrepared(reference, subject).judgement;
    const said = descent ?? 'cannotJudge';
    const shared = surfaces?.marks.filter(({ carriedBy, raised }) => carriedBy === 'both' && !raised).length ?? 0;
    return { ...kind, pair, witness: hasWitness(pair, kind), finding, said, shared };
  } catch (error) {
    if (error instanceof ScanError) return null;
    throw error;
  }
}

const direction = { reference: 'referenceFromSubject', subject: 'subjectFromReference' } as const;
const isDirection = ({ said }: Answer): boolean => Object.values<string>(direction).includes(said);
const isRight = ({ said, pair: { copyIs } }: Answer): boolean => copyIs !== null && said === direction[copyIs];
const isTold = (one: Answer): boolean => one.said === 'oneDescent' || isRight(one);

function lineOf(one: Answer): string {
  const { seed, pair, witness, finding, said, shared } = one;
  const truly = pair.copyIs
    ? `${pair.copyIs} is a cast of size ${pair.castSize.toFixed(4)}${witness ? ', witness' : ''}`
    : 'independent';
  return `${seed}: ${truly}, ${(100 * pair.lostShare).toFixed(0)} % lost: ${finding}, ${said}, ${shared} shared`;
}

function rowsOf(list: readonly Answer[], unread: number): Row[] {
  const casts = list.filter(({ isCast }) => isCast);
  const independent = list.filter(({ isCast }) => !isCast);
  const witnessed = casts.filter(({ witness }) => witness);
  const bare = casts.filter(({ witness }) => !witness);
  const of = (all: readonly Answer[], test: (one: Answer) => boolean): string =>
    all.length > 0 ? share(all.filter(test).length, all.length) : 'none';
  const atMost = (all: readonly Answer[], test: (one: Answer) => boolean): string =>
    `${of(all, test)}, at most ${(100 * upperBound(all.filter(test).length, all.length)).toFixed(1)} %`;
  const wrong = (one: Answer): boolean => isDirection(one) && !isRight(one);
  return [
    {
      what: 'pairs read; supported',
      floor: '',
      measured: `${share(list.length, list.length + unread)}; ${of(list, ({ finding }) => finding === 'supported')}`,
    },
    {
      what: 'casts of what had lost 5 % and more: of one descent, or the right direction',
      floor: '90 %',
      measured: of(casts, isTold),
    },
    {
      what: '… of those supported',
      floor: '',
      measured: of(
        casts.filter(({ finding }) => finding === 'supported'),
        isTold,
      ),
    },
    {
      what: '… with a step of size of two σ, both scales stated: direction right',
      floor: '75 %',
      measured: of(witnessed, isRight),
    },
    { what: '… without: a direction said', floor: '0', measured: of(bare, isDirection) },
    { what: 'wrong direction, of all pairs', floor: '1 % on 300', measured: atMost(list, wrong) },
    {
      what: 'independent impressions said to be of one descent',
      floor: '0 of 300',
      measured: atMost(independent, ({ said }) => said !== 'cannotJudge'),
    },
  ];
}
