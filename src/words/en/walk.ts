import type { NameNode, WalkWords } from '../words.js';
import { enComponent as component, EN_HEAD_END } from './places.js';

const end = (trunk: string, node: string | null, nameNode: NameNode) =>
  node === null ? EN_HEAD_END : nameNode(trunk, node);

export const EN_WALK: WalkWords = {
  tryFunction: {
    lamp: (room) => `Look at the lamp in ${room}`,
    announcement: (room) => `Listen to an announcement in ${room}`,
    bell: (room) => `Listen for the bell in ${room}`,
    music: (room) => `Listen for music in ${room}`,
    'room-call': (room) => `Have ${room} called`,
    talkback: (room) => `Speak back from ${room}`,
  },
  lampSeen: ['it is lit', 'it is dim', 'it is dark'],
  heard: ['it is heard', 'it is faint', 'it is silent'],
  measureOutput: (trunk) => `Measure the output of trunk ${trunk} at the head-end`,
  measureArrival: (room) => `Measure what arrives at ${room} IN`,
  allThere: 'all is there',
  somethingMissing: 'something is missing',
  disconnect: (room) => `Disconnect everything past ${room} and see whether the trunk comes back`,
  liftOff: (room) => `Lift the cable off at ${room} IN and see whether the trunk comes back`,
  comesBack: 'it comes back',
  doesNotComeBack: 'it does not',
  open: (part, place, nameNode) => {
    switch (place.kind) {
      case 'head-end':
        return 'Open the head-end';
      case 'port':
        return `Look at the fuse and output terminals of trunk ${place.trunk}`;
      case 'station':
        return `See to the station in ${nameNode(place.trunk, place.node)}`;
      case 'span': {
        if (part !== 'cable') return `Open the ${component(part, place, nameNode)}`;
        const to = nameNode(place.trunk, place.to);
        return `Follow the cable from ${end(place.trunk, place.from, nameNode)} to ${to}`;
      }
    }
  },
  remake: (part, place, nameNode) => {
    switch (place.kind) {
      case 'head-end':
        return 'Go through the head-end once more, module by module';
      case 'port':
        return `Make the fuse and output terminals of trunk ${place.trunk} anew`;
      case 'station':
        return `Change the station in ${nameNode(place.trunk, place.node)}`;
      case 'span': {
        if (part !== 'cable') return `Make the ${component(part, place, nameNode)} anew`;
        const to = nameNode(place.trunk, place.to);
        return `Lay a cable from ${end(place.trunk, place.from, nameNode)} to ${to} for a trial`;
      }
    }
  },
  allWorks: 'all works',
  stillFails: 'something still fails',
  atFault: 'at fault',
  sound: 'sound',
  soundAnd: (seen) => `sound, and ${seen}`,
  from: (where, minutes) => `From ${where}, about ${minutes} min until all works again.`,
  nothingSuspect: 'Nothing is suspect.',
  step: (label, minutes) => `${label} (${minutes} min).`,
  ending: (seen, chance, next) => `If ${seen} (${chance}): ${next}`,
  otherwise: (chance, next) => `Otherwise (${chance}): ${next}`,
  mendIt: 'at fault, mend it',
  mendItAndIf: 'at fault, mend it; if something still fails',
  everythingWorks: 'Everything works.',
  askAgain: 'Ask again here.',
  cautions: [
    'Isolate and prove dead before opening a head-end or a joint.',
    'Loudspeaker lines can carry dangerous voltages; mains parts are for licensed persons.',
    'Mind ladders and working at height.',
    'Rooms are in use and children may be present: go accompanied, agree times.',
    'Know about asbestos and fire-stopping before drilling.',
    'Local codes and the site’s own rules come first. This plan advises; the person on site decides.',
  ],
  emergencyCaution:
    'This system serves evacuation or emergency calls: tell the responsible person, put the agreed substitute in place, and log the times out of service.',
};
