export const EN_WORK_TIMES = {
  title: 'How long work takes',
  hint: 'Plans of a day and the next step on site go by these minutes.',
  pace: (percent: string, visits: number) =>
    visits === 1
      ? `Learned from 1 visit: work takes ${percent} of what is usual.`
      : `Learned from ${visits} visits: work takes ${percent} of what is usual.`,
  paceHint:
    'Call-outs on which something was found or mended count. A few of them move it little, many of them all the way.',
  nothingLearned:
    'Nothing is learned yet: no call-out on which something was found or mended is done.',
  groups: {
    way: 'Getting there',
    look: 'Looking and measuring',
    open: 'Opening',
    mend: 'Mending and proving',
  },
  names: {
    walkHundredMetres: 'Walk a hundred metres',
    climbFloor: 'Climb a floor',
    enterHeadEnd: 'Be let in to the head-end',
    enterRoom: 'Be let into a room',
    reachJunctionBox: 'Get at a junction box above a ceiling',
    waitForLesson: 'Wait until a room can be disturbed',
    setUpLadder: 'Set up a ladder',
    isolateAndProveDead: 'Isolate, and prove it dead',
    lookAtLamp: 'Look at a lamp',
    listen: 'Listen in a room',
    measure: 'Measure',
    disconnect: 'Disconnect part of a trunk and connect it again',
    lookAtFuse: 'Look at a fuse',
    openHeadEnd: 'Open the head-end',
    openTerminals: 'Open terminals',
    openCableRun: 'Get at a run of cable',
    followTenMetres: 'Follow ten metres of cable',
    openStation: 'Open a room’s unit',
    mendHeadEnd: 'Mend the head-end',
    mendFuse: 'Renew a fuse',
    mendTerminals: 'Remake terminals',
    mendCable: 'Mend a cable',
    mendStation: 'Mend or swap a room’s unit',
    walkTestRoom: 'Try one room when all is mended',
    secondTrip: 'Go away for a part and come back',
  },
  empty: 'Minutes. An empty field goes by what was learned, or else by what is usual.',
  goesBy: {
    own: (usual: string) => `as you say; usual are ${usual} min`,
    learned: (minutes: string, usual: string, visits: number) =>
      visits === 1
        ? `${minutes} min, learned from 1 visit; usual are ${usual} min`
        : `${minutes} min, learned from ${visits} visits; usual are ${usual} min`,
    usual: (usual: string) => `${usual} min, as is usual`,
  },
  said: (minutes: string) => `${minutes} min, as the firm says`,
  notOwner: 'An owner changes them.',
  number: 'must be minutes, such as 2.5',
};
