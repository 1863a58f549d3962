import { XMLParser } from 'fast-xml-parser';
import { strFromU8 } from 'fflate';
import type { Budget } from '../admission/budget.ts';
import { fromUtf16 } from '../admission/utf16.ts';
import { ScanError } from '../error.ts';
import { checkSize } from '../limits.ts';
import { type InlineList, splitDataList } from './dataList.ts';

/** I int16, L int32, F float32, D float64. */
export type X3pType = 'I' | 'L' | 'F' | 'D';

export interface X3pAxis {
  /** Absolute: stored with every point. Incremental: index · increment + offset. */
  readonly absolute: boolean;
  readonly type: X3pType;
  readonly increment: number;
  readonly offset: number;
}

/** The part of main.xml that says how to read the points. Lengths in metres. */
export interface X3pDocument {
  readonly axes: readonly [X3pAxis, X3pAxis, X3pAxis];
  readonly columns: number;
  readonly rows: number;
  /** Values between semicolons, one text a point, empty where there is none; undefined where they are in a file. */
  readonly data?: readonly string[];
  readonly dataLink?: string;
  readonly validLink?: string;
}

type Node = Readonly<Record<string, unknown>>;

/**
 * Reads main.xml of an X3P container (ISO 25178-72), with or without a name space at its root.
 * Throws `malformed` where it cannot be followed and `noTriangles` for profiles and point clouds.
 */
export function readX3pDocument(xml: Uint8Array, budget: Budget): X3pDocument {
  const { rest, list } = splitDataList(fromUtf16(xml) ?? xml, budget);
  const root = parse(rest);
  const axes = child(child(root, 'Record1'), 'Axes');
  const feature = text(child(root, 'Record1').FeatureType);
  const matrix = child(root, 'Record3').MatrixDimension;
  if (feature === 'PRF')
    throw new ScanError('noTriangles', 'the X3P file holds a profile, a line; give a scan of the surface.');
  if (feature === 'PCL' || matrix === undefined)
    throw new ScanError('noTriangles', 'the X3P file holds loose points without a grid; export it as a surface.');
  const size = child(child(root, 'Record3'), 'MatrixDimension');
  if (whole(size.SizeZ ?? '1') !== 1)
    throw new ScanError('unsupported', 'the X3P file holds several layers; export one of them.');
  const columns = whole(size.SizeX);
  const rows = whole(size.SizeY);
  checkSize(columns * rows, columns * rows * 2);
  return {
    axes: [axisOf(child(axes, 'CX')), axisOf(child(axes, 'CY')), axisOf(child(axes, 'CZ'))],
    columns,
    rows,
    ...pointsOf(child(root, 'Record3'), list, columns * rows),
  };
}

function parse(xml: Uint8Array): Node {
  try {
    const parser = new XMLParser({
      removeNSPrefix: true,
      parseTagValue: false,
      processEntities: false,
      ignoreDeclaration: true,
    });
    const document = parser.parse(strFromU8(xml).replace(/^\uFEFF/, '')) as Node;
    const root = Object.values(document).find((value) => isNode(value) && 'Record1' in value);
    if (isNode(root)) return root;
  } catch {
    // Falls through to the one message.
  }
  throw malformed();
}

function axisOf(node: Node): X3pAxis {
  const type = text(node.DataType);
  if (type !== 'I' && type !== 'L' && type !== 'F' && type !== 'D') throw malformed();
  const absolute = text(node.AxisType) !== 'I';
  const increment = Number(text(node.Increment) || '1');
  const offset = Number(text(node.Offset) || '0');
  if (!(Math.abs(increment) > 0) || !Number.isFinite(increment + offset)) throw malformed();
  // Floats on an absolute axis are metres as they stand; writers fill these fields in all the same.
  const plain = absolute && (type === 'F' || type === 'D');
  return { absolute, type, increment: plain ? 1 : increment, offset: plain ? 0 : offset };
}

function pointsOf(
  record3: Node,
  list: InlineList | undefined,
  points: number,
): Pick<X3pDocument, 'data' | 'dataLink' | 'validLink'> {
  if (isNode(record3.DataLink)) {
    const valid = text(record3.DataLink.ValidPointsLink);
    return { dataLink: text(record3.DataLink.PointDataLink), ...(valid ? { validLink: valid } : {}) };
  }
  if (!list) throw malformed();
  return { data: list.read(points) };
}

const isNode = (value: unknown): value is Node => typeof value === 'object' && value !== null;

function child(node: Node, name: string): Node {
  const value = node[name];
  if (!isNode(value)) throw malformed();
  return value;
}

const text = (value: unknown): string => (typeof value === 'string' ? value.trim() : '');

function whole(value: unknown): number {
  const number = Number(text(value));
  if (!Number.isInteger(number) || number < 1 || number > 2 ** 26) throw malformed();
  return number;
}

const malformed = (): ScanError =>
  new ScanError('malformed', 'the description (main.xml) of the X3P file cannot be followed; export the file again.');
