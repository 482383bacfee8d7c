import { ModernFakeTimers } from '@jest/fake-timers';
import { ModuleMocker } from 'jest-mock';

type Globals = Record<string, PropertyDescriptor>;

type TimerSettings = ConstructorParameters<typeof ModernFakeTimers>[0]['config'];

/**
 * Runs a test file in the worker's own realm rather than in one made for it, so that modules loaded and compiled for one file
 * serve the next (decision 0117). What a file puts in the place of a global is put back; a file that leaves another directory or
 * other environment variables behind for the next is told so: it fails.
 */
export default class KeptEnvironment {
  /** Jest sets its console here; files write to the worker's own. */
  readonly global = {};
  readonly fakeTimers = null;
  readonly moduleMocker = new ModuleMocker(globalThis);
  readonly fakeTimersModern: ModernFakeTimers;
  private before: string[] = [];
  private globals: Globals = {};

  constructor({ projectConfig }: { projectConfig: TimerSettings }) {
    this.fakeTimersModern = new ModernFakeTimers({ config: projectConfig, global: globalThis });
  }

  setup(): void {
    this.globals = Object.getOwnPropertyDescriptors(globalThis);
    this.before = whatStays();
  }

  teardown(): void {
    this.moduleMocker.restoreAllMocks();
    this.fakeTimersModern.dispose();
    putBack(this.globals);
    const after = whatStays();
    const left = [
      ...after.filter((each) => !this.before.includes(each)),
      ...this.before.filter((each) => !after.includes(each)).map((each) => `${each} is gone`),
    ];
    if (left.length > 0)
      throw new Error(`The file leaves for the next one: ${left.sort().join('; ')}`);
  }

  exportConditions(): string[] {
    return ['node', 'node-addons'];
  }

  getVmContext(): null {
    return null;
  }
}

/** Of a browser, which specs of pages stand in for. Other new globals are of packages, and stay as these do. */
const OF_PAGES = [
  'document',
  'navigator',
  'EventSource',
  'addEventListener',
  'removeEventListener',
];

function putBack(before: Globals): void {
  for (const name of OF_PAGES)
    if (!(name in before)) delete (globalThis as Record<string, unknown>)[name];
  for (const [name, was] of Object.entries(before)) {
    const now = Object.getOwnPropertyDescriptor(globalThis, name);
    if (now?.value !== was.value || now?.get !== was.get)
      Object.defineProperty(globalThis, name, was);
  }
}

/** What a file could change for those that run after it in the same worker; the state of modules apart, which the service keeps too. */
function whatStays(): string[] {
  return [
    `directory ${process.cwd()}`,
    ...Object.entries(process.env).map(([name, value]) => `${name}=${value}`),
  ];
}
