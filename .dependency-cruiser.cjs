const { readdirSync } = require('node:fs');
const { sep } = require('node:path');

// The fences of docs/decisions/0002: what each folder and each file suffix may touch.
/** Every feature, and which others it may know. A feature that is not here fits nowhere; no edge goes both ways. */
const EDGES = {
  sites: [],
  sheets: ['sites'],
  reports: ['sites'],
  readings: ['sites', 'reports'],
  looks: ['sites', 'reports'],
  tickets: ['sites', 'reports', 'readings', 'looks'],
  history: ['sites', 'reports', 'tickets'],
  people: ['sites'],
  visits: ['sites', 'people', 'reports', 'readings', 'looks', 'tickets', 'history'],
  photos: ['people', 'tickets', 'visits'],
  contracts: ['sites', 'reports', 'tickets', 'visits'],
  promises: ['sites', 'reports', 'tickets', 'contracts'],
  'work-times': [],
  vans: ['people', 'reports', 'tickets'],
  locating: ['sites', 'reports', 'readings', 'looks', 'tickets', 'history'],
  walks: ['sites', 'tickets', 'work-times', 'locating'],
  review: ['sites', 'tickets', 'history', 'contracts', 'promises', 'work-times'],
  dispatch: ['sites', 'people', 'visits', 'contracts', 'work-times', 'vans', 'locating', 'walks'],
  'job-sheets': ['sites', 'visits', 'vans', 'locating', 'walks'],
  'calendar-feeds': ['sites', 'people', 'access'],
  desk: ['tickets'],
  changes: ['people'],
  audit: ['people'],
  mail: [],
  'rate-limits': [],
  notices: ['sites', 'people', 'access', 'mail'],
  access: ['people', 'audit', 'mail', 'rate-limits'],
  passes: [
    'access',
    'people',
    'sites',
    'reports',
    'looks',
    'history',
    'tickets',
    'visits',
    'locating',
  ],
};
const FEATURES = Object.keys(EDGES).join('|');
/** What every feature stands on. */
const GROUND = ['compute', 'database', 'health', 'jobs', 'observability', 'shared'];
for (const file of readdirSync('src', { recursive: true })) {
  const [folder, ...below] = file.split(sep);
  const isModule = below.length === 1 && below[0].endsWith('.module.ts');
  if (isModule && !(folder in EDGES) && !GROUND.includes(folder))
    throw new Error(`Say in EDGES which features ${folder} may know`);
}
for (const [feature, known] of Object.entries(EDGES))
  for (const other of known)
    if (EDGES[other].includes(feature))
      throw new Error(`${feature} and ${other} may not know each other both`);

const edgeRules = Object.entries(EDGES).map(([feature, known]) => ({
  name: `edges-of-${feature}`,
  severity: 'error',
  from: { path: `^src/${feature}/` },
  to: { path: `^src/(${FEATURES})/`, pathNot: `^src/(${[feature, ...known].join('|')})/` },
}));
const ROLE =
  '\\.(module|controller|service|repository|entity|dto|guard|interceptor|filter|decorator|worker)\\.ts$';

/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    ...edgeRules,
    {
      name: 'no-cycles',
      comment: 'A type-only import is erased, so entities may name each other.',
      severity: 'error',
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
    },
    {
      name: 'locator-is-pure',
      comment:
        'The browser runs the same files: no framework, no Node API, nothing outside locator/.',
      severity: 'error',
      from: { path: '^src/locator/', pathNot: '\\.spec\\.ts$' },
      to: { pathNot: '^src/(locator|plan|drawing|elementary)/' },
    },
    {
      name: 'plan-and-drawing-are-pure',
      comment: 'Values that everybody may read: a kind of system, and who feeds whom.',
      severity: 'error',
      from: { path: '^src/(plan|drawing|elementary)/', pathNot: '\\.spec\\.ts$' },
      to: { pathNot: '^src/(plan|drawing|elementary)/' },
    },
    {
      name: 'locators-siblings-are-pure',
      comment: 'They import the locator at most, through its indexes.',
      severity: 'error',
      from: { path: '^src/(walk|survey|statistics)/', pathNot: '\\.spec\\.ts$' },
      to: {
        pathNot: [
          '^src/$1/',
          '^src/(plan|drawing|elementary)/',
          '^src/locator/(electrical/|worlds/)?index\\.ts$',
          '^node_modules/jstat/',
        ],
      },
    },
    {
      name: 'words-are-pure',
      comment: 'Sentences are made of facts: of what works the facts out, the shapes alone.',
      severity: 'error',
      from: { path: '^src/words/', pathNot: '\\.spec\\.ts$' },
      to: { pathNot: '^src/(words|plan|drawing)/', dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'locator-through-its-index',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/locator/' },
      to: {
        path: '^src/locator/',
        pathNot: '^src/locator/(electrical/|worlds/)?index\\.ts$',
      },
    },
    {
      name: 'locating-asks-the-locator',
      comment:
        'Other features know the shapes of its answers; its limits on what they take; and readings, its own check of one.',
      severity: 'error',
      from: {
        path: `^src/(${FEATURES})/`,
        pathNot: [
          '^src/(locating|walks)/',
          '\\.spec\\.ts$',
          '^src/readings/(check-reading|(take-)?reading\\.dto)\\.ts$',
          '^src/sites/(as-built-fields|as-built\\.dto|survey-answer)\\.ts$',
          '^src/history/learned-(errors|rates)\\.ts$',
        ],
      },
      to: { path: '^src/(locator|walk)/', dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'files-without-a-role-are-pure',
      comment: 'No suffix: no framework, no database, no Node API; only other pure files.',
      severity: 'error',
      from: { path: `^src/(${FEATURES})/`, pathNot: [ROLE, '\\.spec\\.ts$'] },
      to: {
        path: [ROLE, 'node_modules/(@nestjs|typeorm|pg|fastify)'],
        dependencyTypesNot: ['type-only'],
      },
    },
    {
      name: 'files-without-a-role-use-no-node',
      severity: 'error',
      from: { path: `^src/(${FEATURES})/`, pathNot: [ROLE, '\\.spec\\.ts$'] },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'sql-lives-in-repositories',
      comment: 'Controllers and services never touch the ORM.',
      severity: 'error',
      from: { path: '\\.(controller|service|dto)\\.ts$' },
      to: { path: 'node_modules/(typeorm|pg)/' },
    },
    {
      name: 'controllers-call-services',
      severity: 'error',
      from: { path: '\\.controller\\.ts$' },
      to: { path: '\\.(repository|entity)\\.ts$' },
    },
    {
      name: 'features-call-each-others-service',
      comment:
        'Never another feature’s repository, entity or controller; what a row looks like it may know. A foreign key names ' +
        'the other table’s entity as text, or along an edge by its class.',
      severity: 'error',
      from: { path: `^src/(${FEATURES})/`, pathNot: '\\.entity\\.ts$' },
      to: {
        path: `^src/(${FEATURES})/.+\\.(repository|entity|controller)\\.ts$`,
        pathNot: '^src/$1/',
        dependencyTypesNot: ['type-only'],
      },
    },
    {
      name: 'shared-knows-no-feature',
      severity: 'error',
      from: { path: '^src/shared/' },
      to: { path: `^src/(${FEATURES}|locator|database)/` },
    },
    {
      name: 'nothing-imports-the-web',
      severity: 'error',
      from: { pathNot: '^src/web/' },
      to: { path: '^src/web/' },
    },
    {
      name: 'web-stands-alone',
      comment:
        'Pages bundle themselves, the pure locator, the plan of a walk, and packages; of the service they know the shapes of its answers.',
      severity: 'error',
      from: { path: '^src/web/', pathNot: '\\.spec\\.ts$' },
      to: {
        pathNot: [
          '^src/web/',
          '^(src|dist)/(((locator|words)/index|words/(review|job|clock)-words-in)|walks/plan-on-kit)\\.',
          '^(src|dist)/drawing/((lay|place)-trunk|strip-of)\\.',
          // What the service takes of a picture, of a pen, of a token's scopes, of a look at the drawing, and what it asks the office.
          '^(src|dist)/(photos/photo-format|shared/pen-path|access/scopes|locating/settled-drawing|reports/office-questions)\\.',
          '^node_modules/(idb|preact|preact-iso|(@types/)?qrcode|uuidv7)/',
        ],
        dependencyTypesNot: ['type-only'],
      },
    },
    {
      name: 'places-know-parts-alone',
      comment: 'A place is a folder; what two of them need is a part (decision 0081).',
      severity: 'error',
      from: { path: '^src/web/([^/]+)/' },
      to: { path: '^src/web/[^/]+/', pathNot: ['^src/web/$1/', '^src/web/parts/'] },
    },
    {
      name: 'parts-know-no-place',
      severity: 'error',
      from: { path: '^src/web/parts/' },
      to: { path: '^src/web/', pathNot: '^src/web/parts/' },
    },
    {
      name: 'web-knows-shapes-alone',
      severity: 'error',
      from: { path: '^src/web/' },
      to: {
        path: '^(src|dist)/(?!web/|(((locator|words)/index|words/(review|job|clock)-words-in)|walks/plan-on-kit|drawing/((lay|place)-trunk|strip-of)|shared/pen-path|access/scopes|photos/photo-format|locating/settled-drawing|reports/office-questions)\\.)',
        pathNot: [
          '^(src|dist)/.+\\.dto\\.',
          // The shapes of a plan, and of what is entered for it.
          '^(src|dist)/(walks/(plan-ticket-walk|walk-records)|locating/entered-on-site)\\.',
        ],
      },
    },
    {
      name: 'bench-runs-without-jest',
      comment:
        'Node runs it: what it shares with tests must not lead to what is there in Jest alone.',
      severity: 'error',
      from: { path: '^test/bench/' },
      to: { path: '^node_modules/@jest/globals/', reachable: true },
    },
    {
      name: 'declared-packages-only',
      severity: 'error',
      // The pages’ packages are bundled when they are built.
      from: { path: '^src/', pathNot: ['\\.spec\\.ts$', '^src/web/'] },
      to: {
        dependencyTypes: ['npm-dev', 'npm-no-pkg', 'npm-unknown'],
        dependencyTypesNot: ['type-only'],
      },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'node', 'default'],
    },
  },
};
