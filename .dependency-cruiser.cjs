// Who may import whom. Within lib a room may import only what its line names; a wrong arrow fails the build.
const MAY_IMPORT = {
  core: ['core'],
  contract: ['core'],
  time: [],
  ingest: ['contract', 'core', 'time'],
  report: ['contract', 'core', 'time'],
  store: ['contract', 'core', 'time', 'ingest'],
  auth: ['contract', 'core', 'time', 'store'],
  work: ['contract', 'core', 'time', 'ingest', 'report', 'store', 'auth'],
  cli: ['contract', 'core', 'time', 'ingest', 'report', 'store', 'auth', 'work'],
};

/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    ...Object.entries(MAY_IMPORT).map(([room, allowed]) => ({
      name: `lib/${room} imports only ${[room, ...allowed].join(', ')}`,
      severity: 'error',
      from: { path: `^lib/${room}/` },
      to: { path: '^(lib|app|seed|tests)/', pathNot: `^lib/(${[room, ...allowed].join('|')})/` },
    })),
    {
      name: 'lib/core is pure: no package, no Node module',
      severity: 'error',
      from: { path: '^lib/core/' },
      to: { pathNot: '^lib/core/' },
    },
    {
      name: 'only lib/store knows the database',
      severity: 'error',
      from: { path: '^(app|lib)/', pathNot: '^lib/store/' },
      to: { path: '(^generated/|^prisma/|better-sqlite3|@prisma)' },
    },
    {
      name: 'app shows and does not compute: lib/work, lib/report, lib/contract, lib/time; lib/auth says who may',
      severity: 'error',
      from: { path: '^app/' },
      to: { path: '^lib/', pathNot: '^lib/(work|report|contract|time|auth)/' },
    },
    {
      name: 'app/ui knows neither work nor store',
      severity: 'error',
      from: { path: '^app/ui/' },
      to: { path: '^lib/', pathNot: '^lib/(report|contract|time)/' },
    },
    {
      name: 'no circles',
      severity: 'error',
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '^(generated|\\.next)/' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default'],
    },
  },
};
