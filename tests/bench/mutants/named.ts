/** A slip worth a name: what stands once in the file, what is put there, and the tests that ought to see it. */
export interface NamedMutant {
  readonly file: string;
  readonly find: string;
  readonly put: string;
  /** Where the file's own folder of tests is not the place. */
  readonly tests?: readonly string[];
}

/** Signs, units, thresholds and columns that the tests must hold fast. */
export const named: readonly NamedMutant[] = [
  // Every figure's PNG mirrored, left to right.
  {
    file: 'src/core/report/drawing/png.ts',
    find: 'for (let i = 0, at = 0; at < data.length; i += 4, at += 3) {',
    put: 'for (let k = 0, at = 0; at < data.length; k++, at += 3) { const i = 4 * (k - 2 * (k % width) + width - 1);',
    tests: ['tests/report/mirrored.test.ts'],
  },
  // The model chosen by the blocks that were fitted.
  { file: 'src/core/fit/models.ts', find: '(inside[i] === 1 ? 0 : w)', put: '(inside[i] === 1 ? w : 0)' },
  // The warp never chosen, and always.
  {
    file: 'src/core/fit/assessment.ts',
    find: 'smoothWarp < options.warpGain * oneScale',
    put: 'false',
    tests: ['tests/fit/modelChoice.test.ts'],
  },
  {
    file: 'src/core/fit/assessment.ts',
    find: 'warpGain: 0.9',
    put: 'warpGain: 1.5',
    tests: ['tests/fit/modelChoice.test.ts'],
  },
  // Ellipses of one degree of freedom, and of 99 %.
  { file: 'src/core/judge/constellation.ts', find: '= 5.991', put: '= 3.841' },
  { file: 'src/core/judge/constellation.ts', find: '= 5.991', put: '= 9.21' },
  // The thresholds of the finding.
  { file: 'src/core/judge/gates.ts', find: '  against: -1.5,', put: '  against: -2.5,' },
  { file: 'src/core/judge/gates.ts', find: '  against: -1.5,', put: '  against: -0.5,' },
  { file: 'src/core/judge/gates.ts', find: '  support: 2,', put: '  support: 3,' },
  {
    file: 'src/core/judge/gates.ts',
    find: "'growth', Math.abs(modelOf(fit, 'oneScale').scale - 1)",
    put: "'growth', modelOf(fit, 'oneScale').scale - 1",
  },
  { file: 'src/core/judge/rivals.ts', find: 'overCopy: s - c', put: 'overCopy: c - s' },
  // Two columns of a table exchanged.
  {
    file: 'src/core/report/csv.ts',
    find: '      ellipse.majorMm,\n      ellipse.minorMm,',
    put: '      ellipse.minorMm,\n      ellipse.majorMm,',
    tests: ['tests/report/columns.test.ts'],
  },
  // A figure that stands twice and drifts.
  {
    file: 'src/core/compare/materials.ts',
    find: "const metal = rangeOf('castMetal')",
    put: 'const metal: Range = [0.97, 0.99]',
  },
  { file: 'src/core/compare/materials.ts', find: '[a[0] / b[1], a[1] / b[0]]', put: '[a[0] / b[0], a[1] / b[1]]' },
  // Turn in degrees without its factor.
  { file: 'src/core/fit/uncertainty.ts', find: '* 180) / Math.PI', put: '* 180) / 3' },
  // Doors: the stride of a packed view, on which the decoder runs on for ever, and millions of values parsed before they are counted.
  {
    file: 'src/core/scan/gltf/views.ts',
    find: "if (!strideFits(mode, filter, stride, count)) throw malformedGltf('compressed data');",
    put: '',
    tests: ['tests/scan/gltf.test.ts'],
  },
  {
    file: 'src/app/saved/unpack.ts',
    find: 'textWithinBudget(parts.text, what);',
    put: '',
    tests: ['tests/app/admission.test.ts'],
  },
];
