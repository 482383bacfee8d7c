import type { Plan } from '#app/plan/plan.js';

/** A loop of two cores that carries everything: no lamp, no room call. All numbers are invented. */
export const TWO_CORES = {
  name: 'two-core',
  cores: ['line', 'back'],
  supply: 'line',
  return: 'back',
  functions: { announcement: ['line', 'back'], bell: ['line', 'back'] },
  headEnd: {
    rectifier: { disables: ['announcement', 'bell'], takesSupply: true, shown: 0.9 },
    clock: { disables: ['bell'], shown: 0.6 },
    mixer: { disables: ['announcement'] },
  },
  headEndOfGroup: { 'zone-off': { disables: ['announcement', 'bell'] } },
  port: 'fuse',
  station: {
    'unit-dead': { disables: ['announcement', 'bell'] },
    gong: { disables: ['bell'] },
    muted: { disables: ['announcement'], isSetting: true, isVolume: true },
    'terminals-short': { disables: [], shortsSupply: true },
  },
  span: {
    severed: { parts: true },
    'line-open': { opens: 'line' },
    'back-open': { opens: 'back' },
    'line-shorted': { shorts: 'line' },
    corroded: { weakens: true },
  },
  rates: {
    headEnd: { rectifier: 0.05, clock: 0.07, mixer: 0.03, 'zone-off': 0.04 },
    port: { fuse: 0.06 },
    station: { 'unit-dead': 0.03, gong: 0.02, muted: 0.05, 'terminals-short': 0.01 },
    junction: {
      severed: 0.01,
      'line-open': 0.008,
      'back-open': 0.006,
      'line-shorted': 0.007,
      corroded: 0.012,
    },
    cablePerMetre: {
      severed: 2e-4,
      'line-open': 1e-4,
      'back-open': 5e-5,
      'line-shorted': 8e-5,
      corroded: 6e-5,
    },
  },
  errors: {
    office: {
      good: [0.9, 0.06, 0.04],
      weak: [0.3, 0.5, 0.2],
      dead: [0.03, 0.02, 0.95],
      confused: 0.05,
    },
    technician: {
      good: [0.97, 0.02, 0.01],
      weak: [0.15, 0.8, 0.05],
      dead: [0.01, 0.01, 0.98],
      confused: 0,
    },
  },
  looks: {
    office: { missed: 0.2, false: 0.03 },
    technician: { missed: 0.08, false: 0.01 },
  },
  minutes: {
    office: { announcement: 4, bell: 2 },
    technician: { announcement: 3, bell: 1 },
  },
} as const satisfies Plan;

/**
 * Three cores in another order, of which only one can be shorted: no station shorts anything, no joint goes bad by degrees,
 * and there are no settings of groups.
 */
export const THREE_CORES = {
  name: 'three-core',
  cores: ['common', 'call', 'feed'],
  supply: 'feed',
  return: 'common',
  functions: { 'door-call': ['feed', 'common', 'call'], lamp: ['feed', 'common'] },
  headEnd: {
    mains: { disables: ['door-call', 'lamp'], takesSupply: true, shown: 1 },
    exchange: { disables: ['door-call'] },
  },
  headEndOfGroup: {},
  port: 'breaker',
  station: {
    'unit-dead': { disables: ['door-call', 'lamp'] },
    bulb: { disables: ['lamp'] },
    'left-out': { disables: ['door-call'], isSetting: true },
  },
  span: {
    severed: { parts: true },
    'feed-open': { opens: 'feed' },
    'call-open': { opens: 'call' },
    'common-open': { opens: 'common' },
    'call-shorted': { shorts: 'call' },
  },
  rates: {
    headEnd: { mains: 0.04, exchange: 0.06 },
    port: { breaker: 0.05 },
    station: { 'unit-dead': 0.02, bulb: 0.08, 'left-out': 0.03 },
    junction: {
      severed: 0.01,
      'feed-open': 0.006,
      'call-open': 0.009,
      'common-open': 0.004,
      'call-shorted': 0.012,
    },
    cablePerMetre: { severed: 1e-4, 'call-open': 8e-5, 'call-shorted': 1.5e-4 },
  },
  errors: TWO_CORES.errors,
  looks: TWO_CORES.looks,
  minutes: {
    office: { 'door-call': 3, lamp: 1 },
    technician: { 'door-call': 2, lamp: 1 },
  },
} as const satisfies Plan;
