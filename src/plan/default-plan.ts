import type { Plan } from './plan.js';

const EVERYTHING = ['lamp', 'announcement', 'bell', 'music', 'room-call', 'talkback'] as const;
const SOUND = ['announcement', 'bell', 'music', 'room-call'] as const;

/**
 * Rooms with a lamp, sound, room call and talkback on a four-core cable (fault model, sections 1 and 2). All rates and error
 * rates are invented starting values, to be replaced by a firm's own record.
 */
export const DEFAULT_PLAN = {
  name: 'four-core',
  cores: ['supply', 'speech', 'select', 'return'],
  supply: 'supply',
  return: 'return',
  functions: {
    lamp: ['supply', 'return'],
    announcement: ['supply', 'return', 'speech'],
    bell: ['supply', 'return', 'speech'],
    music: ['supply', 'return', 'speech'],
    'room-call': ['supply', 'return', 'speech', 'select'],
    talkback: ['supply', 'return', 'speech', 'select'],
  },
  headEnd: {
    power: { disables: EVERYTHING, takesSupply: true, shown: 1 },
    amplifier: { disables: SOUND, shown: 0.7 },
    receiver: { disables: ['talkback'] },
    selector: { disables: ['room-call', 'talkback'], shown: 0.7 },
    'bell-source': { disables: ['bell'], shown: 0.7 },
    microphone: { disables: ['announcement', 'room-call'], shown: 0.7 },
    'line-input': { disables: ['music'], shown: 0.7 },
  },
  headEndOfGroup: {
    'group-off': { disables: SOUND, shown: 1 },
    'group-bell-off': { disables: ['bell'], shown: 1 },
    'group-announcement-off': { disables: ['announcement'], shown: 1 },
  },
  port: 'no-output',
  station: {
    dead: { disables: EVERYTHING },
    speaker: { disables: SOUND },
    'volume-down': { disables: SOUND, isSetting: true, isVolume: true },
    microphone: { disables: ['talkback'] },
    address: { disables: ['room-call', 'talkback'] },
    lamp: { disables: ['lamp'] },
    'bell-setting': { disables: ['bell'], isSetting: true },
    'announcement-setting': { disables: ['announcement'], isSetting: true },
    'music-setting': { disables: ['music'], isSetting: true },
    'short-supply': { disables: [], shortsSupply: true },
  },
  span: {
    parted: { parts: true },
    'open-supply': { opens: 'supply' },
    'open-return': { opens: 'return' },
    'open-speech': { opens: 'speech' },
    'open-select': { opens: 'select' },
    'short-supply': { shorts: 'supply' },
    'short-speech': { shorts: 'speech' },
    'short-select': { shorts: 'select' },
    resistive: { weakens: true },
  },
  rates: {
    headEnd: {
      power: 0.08,
      amplifier: 0.04,
      receiver: 0.02,
      selector: 0.02,
      'bell-source': 0.06,
      microphone: 0.05,
      'line-input': 0.02,
      'group-off': 0.02,
      'group-bell-off': 0.01,
      'group-announcement-off': 0.01,
    },
    port: { 'no-output': 0.02 },
    station: {
      dead: 0.012,
      speaker: 0.006,
      'volume-down': 0.03,
      microphone: 0.008,
      address: 0.002,
      lamp: 0.004,
      'bell-setting': 0.003,
      'announcement-setting': 0.003,
      'music-setting': 0.003,
      'short-supply': 0.001,
    },
    junction: {
      parted: 0.002,
      'open-supply': 0.0015,
      'open-return': 0.0015,
      'open-speech': 0.0015,
      'open-select': 0.0015,
      'short-supply': 0.0002,
      'short-speech': 0.0002,
      'short-select': 0.0002,
      resistive: 0.002,
    },
    cablePerMetre: {
      parted: 4e-5,
      'open-supply': 1e-5,
      'open-return': 1e-5,
      'open-speech': 1e-5,
      'open-select': 1e-5,
      'short-supply': 5e-6,
      'short-speech': 5e-6,
      'short-select': 5e-6,
      resistive: 5e-6,
    },
  },
  errors: {
    office: {
      good: [0.94, 0.03, 0.03],
      weak: [0.35, 0.45, 0.2],
      dead: [0.015, 0.005, 0.98],
      confused: 0.02,
    },
    technician: {
      good: [0.985, 0.01, 0.005],
      weak: [0.1, 0.85, 0.05],
      dead: [0.003, 0.002, 0.995],
      confused: 0,
    },
  },
  looks: {
    office: { missed: 0.1, false: 0.01 },
    technician: { missed: 0.05, false: 0.002 },
  },
  // A lamp takes one person, a sound two.
  minutes: {
    office: { lamp: 2, announcement: 3, bell: 3, music: 3, 'room-call': 3, talkback: 3 },
    technician: { lamp: 0.5, announcement: 2, bell: 2, music: 2, 'room-call': 2, talkback: 2 },
  },
} as const satisfies Plan;
