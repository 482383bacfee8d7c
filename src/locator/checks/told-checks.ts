import { headEndEffect, type PlanTables, settingsAmong } from '../../plan/plan-tables.js';
import type { HeadEndModeName } from '../../plan/modes.js';
import type { Check } from '../posterior/locate-result.js';
import { MAX_CHECKS } from '../request/limits.js';
import type { LocateRequest } from '../request/locate-request.js';
import { planOf } from '../request/plan-of.js';
import { technicianChecksWeighed } from './about-causes.js';
import type { LookedAt, RankedCheck } from './check-action.js';
import type { ChecksRequest } from './checks-request.js';

/** As many as the model allows up to 37 nodes; fewer at larger sites. */
const TRIES = { most: MAX_CHECKS, nodes: 2_400 };

/**
 * The checks of an answer, by what each tells about the causes, the most telling for each minute first; null where a single
 * outcome of each kind would be too much to try.
 */
export function checksAboutCauses(
  asked: Pick<ChecksRequest, 'request' | 'errors' | 'expected'>,
  most: number,
): Check[] | null {
  const plan = planOf(asked.request);
  const lookedAt = lookedAtIn(asked.request, plan);
  const found = technicianChecksWeighed({ ...asked, lookedAt }, most, TRIES);
  return found?.slice(0, most).map((one) => told(one, plan)) ?? null;
}

/** Settings and knobs that somebody looked at are not offered again. */
function lookedAtIn({ looks = [] }: LocateRequest, plan: PlanTables): LookedAt {
  const headEnd = looks.flatMap((look) =>
    look.place.kind === 'head-end'
      ? [('group' in look ? `${look.part}:${look.group}` : look.part) as HeadEndModeName]
      : [],
  );
  return {
    settings: settingsAmong(plan, headEnd).filter((setting) => headEnd.includes(setting)),
    knobs: looks.flatMap(({ place, part }) =>
      place.kind === 'station' && part === plan.volumeMode
        ? [{ trunk: place.trunk, node: place.node }]
        : [],
    ),
  };
}

function told({ action, ...figures }: RankedCheck, plan: PlanTables): Check {
  switch (action.kind) {
    case 'function': {
      const { trunk, node, function: name } = action;
      return { kind: 'hear', trunk, node, function: name, ...figures };
    }
    case 'isolation': {
      const { trunk, node, function: name } = action;
      const point = { trunk, node, function: name };
      return { kind: 'disconnection', ...point, disconnectedBelow: node, ...figures };
    }
    case 'volume-knob': {
      const { trunk, node } = action;
      const place = { kind: 'station', trunk, node } as const;
      return { kind: 'look', place, part: plan.volumeMode ?? '', ...figures };
    }
    case 'open-junction': {
      const { trunk, from, to, component } = action;
      return {
        kind: 'look',
        place: { kind: 'span', trunk, from, to },
        part: component,
        ...figures,
      };
    }
    case 'head-end': {
      const place = { kind: 'head-end' } as const;
      const { group } = headEndEffect(plan, action.setting);
      if (group === null) return { kind: 'look', place, part: action.setting, ...figures };
      const part = action.setting.slice(0, -group.length - 1);
      return { kind: 'look', place, part, group, ...figures };
    }
    case 'supply-volts': {
      const { trunk, node } = action;
      return { kind: 'reading', reading: { kind: 'supply-volts', trunk, node }, ...figures };
    }
    case 'continuity': {
      const { trunk, from, to } = action;
      const cores = [...plan.cores];
      return {
        kind: 'reading',
        reading: { kind: 'continuity', trunk, from, to, cores },
        ...figures,
      };
    }
  }
}
