// What may import what. The folders of src/ in the order of the pipeline: each knows those above it in this list only.
const folders = [
  'diagnostics',
  'yaml',
  'midi',
  'score',
  'map',
  'timing',
  'compile',
  'prove',
  'dynamics',
  'cue',
  'music',
  'arrange',
  'clip',
  'compare',
  'learn',
  'sound',
  'report',
  'sheet',
  'desk',
  'api',
  'cli',
];

/** No folder looks at one that comes behind it. */
const upwards = folders.map((folder, index) => ({
  name: `${folder}-looks-back`,
  severity: 'error',
  from: { path: `^src/${folder}/` },
  to: { path: `^src/(${['none', ...folders.slice(index + 1)].join('|')})/` },
}));

module.exports = {
  forbidden: [
    { name: 'no-circle', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'through-the-index',
      comment: 'A folder is entered through its index.ts.',
      severity: 'error',
      from: { path: '^src/([^/]+)/' },
      to: { path: '^src/[^/]+/.+', pathNot: ['^src/$1/', '^src/[^/]+/index\\.ts$'] },
    },
    {
      name: 'through-the-inner-index',
      comment: 'So is a folder within, where it has one.',
      severity: 'error',
      from: { path: '^src/([^/]+)/([^/]+)' },
      to: {
        path: '^src/$1/(analyse|decide|conflicts|retime|switching|harmony|voicing|register|balance|mechanical|inspections|notate|copyist|engrave|page|player|against|rules|checks|conditions|clock|read|write|voice|mei|play|meaning|align|hear|measure|signal)/.+',
        pathNot: ['^src/$1/$2/', '^src/$1/[^/]+/index\\.ts$', '\\.generated\\.js$'],
      },
    },
    {
      name: 'prove-knows-no-compiling',
      comment: 'The proof is worth something because it knows nothing of how a file is made.',
      severity: 'error',
      from: { path: '^src/prove/' },
      to: { path: '^src/(compile|timing|cue|dynamics)/' },
    },
    {
      name: 'only-cli-touches-files',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/cli/' },
      to: {
        path: '^(node:)?(fs|fs/promises|child_process|process|readline|tty|os|net|http|https|worker_threads|stream|stream/promises)$',
        dependencyTypes: ['core'],
      },
    },
    ...upwards,
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    parser: 'swc',
  },
};
