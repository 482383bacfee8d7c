/** What goes with every plan of work on site. The locator advises; the person on site decides. */
const CAUTIONS = [
  'Isolate and prove dead before opening a head-end or a joint.',
  'Loudspeaker lines can carry dangerous voltages; mains parts are for licensed persons.',
  'Mind ladders and working at height.',
  'Rooms are in use and children may be present: go accompanied, agree times.',
  'Know about asbestos and fire-stopping before drilling.',
  'Local codes and the site’s own rules come first. This plan advises; the person on site decides.',
];

const EMERGENCY =
  'This system serves evacuation or emergency calls: tell the responsible person, put the agreed substitute in place, and log the times out of service.';

/** What the site itself has noted comes first. */
export function cautionsFor(site: {
  servesEmergencyCalls: boolean;
  safetyNotes: string | null;
}): string[] {
  return [
    ...(site.safetyNotes === null ? [] : [site.safetyNotes]),
    ...(site.servesEmergencyCalls ? [EMERGENCY] : []),
    ...CAUTIONS,
  ];
}
