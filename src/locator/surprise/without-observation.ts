import { CONFUSED_LIKELIHOOD } from '../../plan/error-rates.js';
import type { SiteModel } from '../sweep/site.js';
import { trunkLikelihood } from '../sweep/trunk-model.js';

/** The same evidence as if nobody had been asked for one of the request's observations. */
export function withoutObservation(site: SiteModel, observation: number): SiteModel {
  const trunks = site.trunks.map((trunk) => {
    const isHere = trunk.voices.some((heard) =>
      heard.some(({ statements }) => statements.some((one) => one.observation === observation)),
    );
    if (!isHere) return trunk;
    const voices = trunk.voices.map((heard) =>
      heard.map((voice) => {
        const statements = voice.statements.filter((one) => one.observation !== observation);
        if (statements.length === voice.statements.length) return voice;
        return { ...voice, statements, ifConfused: CONFUSED_LIKELIHOOD ** statements.length };
      }),
    );
    return { ...trunk, voices, likelihood: trunkLikelihood({ ...trunk, voices }, site.headEnd) };
  });
  return { ...site, trunks };
}
