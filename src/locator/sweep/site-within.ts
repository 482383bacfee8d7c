import { compareIds } from '../../drawing/drawn-tree.js';
import type { LocateRequest } from '../request/locate-request.js';
import { contextCount } from './contexts.js';
import { tablesOfPlace, withoutIdentities } from './identities.js';
import type { SiteModel } from './site.js';
import type { ConfusionFlag } from './statements.js';
import type { TrunkModel } from './trunk-model.js';

export interface SiteWithin {
  site: SiteModel;
  /** Ids of callers whose words count as anybody's, or they would be too many, ascending. */
  identitiesDropped: string[];
}

/**
 * The site with as many callers as somebody as fit into so many tables: each doubles them where they told of several rooms.
 * Those with the fewest words go first. A site that has too many without any caller stays as it is.
 */
export function siteWithin<Request extends LocateRequest>(
  most: number,
  request: Request,
  modelOf: (request: Request) => SiteModel,
): SiteWithin {
  const dropped: string[] = [];
  for (;;) {
    const site = modelOf(withoutIdentities(request, dropped));
    if (site.flags.length === 0 || tablesOf(site) <= most)
      return { site, identitiesDropped: [...dropped, ...site.identitiesDropped].sort(compareIds) };
    dropped.push(...site.identitiesDropped, ...lessSaid(site.flags));
  }
}

function tablesOf({ trunks }: SiteModel): number {
  const contexts = ({ tree, plan: { groups, nodeFlags } }: TrunkModel) =>
    nodeFlags.reduce(
      (sum, flags, n) => sum + tablesOfPlace(tree, n) * contextCount(groups, flags),
      0,
    );
  return trunks.reduce((sum, trunk) => sum + contexts(trunk), 0);
}

/** The half of the callers with the fewest words, of equals those with the later ids. */
function lessSaid(flags: readonly ConfusionFlag[]): string[] {
  return flags
    .toSorted((a, b) => b.words - a.words || compareIds(a.id, b.id))
    .slice(Math.floor(flags.length / 2))
    .map(({ id }) => id);
}
