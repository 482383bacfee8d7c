import type { Words } from '../words/index.js';

interface CautionedSite {
  safetyNotes: string | null;
  servesEmergencyCalls: boolean;
}

/** What goes with every plan of work on site; what the site itself has noted comes first. */
export function cautionsFor(site: CautionedSite, { walk }: Words): string[] {
  return [
    ...(site.safetyNotes === null ? [] : [site.safetyNotes]),
    ...(site.servesEmergencyCalls ? [walk.emergencyCaution] : []),
    ...walk.cautions,
  ];
}
