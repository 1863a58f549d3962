// The order of the pipeline stands here once. A step may use geometry/ and the steps before it,
// and enters another step only through its index.ts.
const steps = [
  'geometry',
  'scan',
  'face',
  'design',
  'fit',
  'compare',
  'condition',
  'change',
  'judge',
  'read',
  'collection',
  'report',
];

// Small pure packages that the core may use.
const corePackages = [
  'ml-matrix',
  'fft\\.js',
  'fflate',
  'fast-xml-parser',
  'fast-png',
  'zod',
  'meshoptimizer',
  '@noble/hashes',
  'd3-array',
];

// The folders of the app that every screen stands on.
const appBase = 'state|jobs|admission|saved';

const later = (step) => steps.slice(steps.indexOf(step) + 1).join('|');

/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    ...steps
      .filter((step) => later(step))
      .map((step) => ({
        name: `order-${step}`,
        severity: 'error',
        comment: `${step}/ comes before what it imports.`,
        from: { path: `^src/core/${step}/` },
        to: { path: `^src/core/(${later(step)})/` },
      })),
    {
      name: 'through-the-index',
      severity: 'error',
      comment: 'Enter a step through its index.ts only.',
      from: { path: '^src/core/([^/]+)/' },
      to: { path: '^src/core/[^/]+/.+', pathNot: ['^src/core/$1/', '^src/core/[^/]+/index\\.ts$'] },
    },
    {
      name: 'through-the-index-from-outside',
      severity: 'error',
      comment: 'Faces of the program enter a step, and its words and drawings, through its index.ts only.',
      from: { pathNot: '^src/core/' },
      to: { path: '^src/core/[^/]+/.+', pathNot: '^src/core/([^/]+|report/(words|drawing))/index\\.ts$' },
    },
    {
      name: 'words-above',
      severity: 'error',
      comment:
        'The core decides by codes and numbers: sentences are made in report/words/, for the report and for the screens.',
      from: { path: '^src/core/', pathNot: '^src/core/report/' },
      to: { path: '^src/core/report/words' },
    },
    {
      name: 'core-stands-alone',
      severity: 'error',
      comment: 'The core knows neither the command line nor the app.',
      from: { path: '^src/core/' },
      to: { path: '^src/(cli|app|workers)/' },
    },
    {
      name: 'kernels-through-the-index',
      severity: 'error',
      comment: 'The core calls a kernel beside its referee, and by its index.ts.',
      from: { path: '^src/core/' },
      to: { path: '^src/kernels/', pathNot: '^src/kernels/index\\.ts$' },
    },
    {
      name: 'kernels-in-the-core-only',
      severity: 'error',
      comment: 'The core calls a kernel beside its referee; nobody else does.',
      from: { path: '^src/', pathNot: '^src/(kernels|core)/' },
      to: { path: '^src/kernels/' },
    },
    {
      name: 'kernels-know-nothing',
      severity: 'error',
      comment: 'A kernel works on plain arrays: it knows nothing of those who call it.',
      from: { path: '^src/kernels/' },
      to: { path: '^src/', pathNot: '^src/kernels/' },
    },
    {
      name: 'core-is-pure',
      severity: 'error',
      comment: 'No node: modules in the core, and no package outside the list.',
      from: { path: '^src/core/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'core-packages',
      severity: 'error',
      comment: 'The core uses small pure packages from the list at the top of this file.',
      from: { path: '^src/core/' },
      to: { path: 'node_modules', pathNot: `node_modules/(${corePackages.join('|')})/` },
    },
    {
      name: 'three-in-the-scene-only',
      severity: 'error',
      comment: 'app/scene/ is the only place that imports three.',
      from: { path: '^src/', pathNot: '^src/app/scene/' },
      to: { path: 'node_modules/(three|@react-three)/' },
    },
    {
      name: 'app-base-knows-no-screen',
      severity: 'error',
      comment: 'What the app keeps, admits, saves and runs knows nothing of the screens that show it.',
      from: { path: `^src/app/(${appBase})/` },
      to: { path: '^src/app/', pathNot: `^src/app/(${appBase})/` },
    },
    {
      name: 'app-state-knows-no-file',
      severity: 'error',
      comment: 'The document and what follows from it do not know the form of saved files.',
      from: { path: '^src/app/(state|jobs|admission)/' },
      to: { path: '^src/app/saved/' },
    },
    { name: 'no-circles', severity: 'error', from: {}, to: { circular: true } },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'require', 'node', 'default'] },
  },
};
