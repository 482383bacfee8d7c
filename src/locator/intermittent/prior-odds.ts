import type { Place } from '../../drawing/drawn-node.js';
import type { ErrorRates } from '../../plan/error-rates.js';
import type { ExpectedFaults, NodeExpectation } from '../../plan/expected-faults.js';
import type { HeadEndModeName, SpanMode } from '../../plan/modes.js';
import type { ComponentName } from '../posterior/locate-result.js';
import { Looks } from '../sweep/looks.js';
import type { SiteModel } from '../sweep/site.js';
import type { NodeWeights } from '../sweep/priors.js';
import type { SittingsRequest } from './sittings-request.js';

/** For each fault that stays, so many that come and go. An invented starting value, to be replaced by a firm's record. */
export const PASSING_SHARE = 0.25;

const DAYS_PER_YEAR = 365.25;

type Table = Readonly<Partial<Record<string, number>>>;

/** Of what comes and goes: a share of the faults to be expected of each mode, times what was seen there. */
export class PriorOdds {
  private readonly looks: Looks;
  private readonly nodes: ReadonlyMap<string, NodeExpectation>[];

  constructor(
    private readonly request: SittingsRequest,
    private readonly site: SiteModel,
    private readonly expected: ExpectedFaults | undefined,
    errors: ErrorRates,
  ) {
    this.looks = new Looks(site.system.plan.plan, request.looks ?? [], errors);
    this.nodes = site.trunks.map(({ tree }) => {
      const own = expected?.trunks.find(({ id }) => id === tree.id);
      return new Map(own?.nodes.map((node) => [node.id, node]));
    });
  }

  ofHeadEnd(mode: HeadEndModeName): number {
    const table: Table = this.expected?.headEnd ?? this.site.rates.headEnd;
    const { groupModes } = this.site.system.plan;
    const kind = groupModes.find((one) => mode.startsWith(`${one}:`)) ?? mode;
    const faults = (table[mode] ?? table[kind] ?? 0) * this.yearsOfSite();
    return this.odds(faults, { kind: 'head-end' }, 'head-end', mode);
  }

  ofPort(t: number, mode: string): number {
    const { id } = this.site.trunks[t]?.tree ?? { id: '' };
    const own = this.expected?.trunks.find((trunk) => trunk.id === id);
    const table: Table = own?.port ?? this.site.rates.port;
    const faults = (table[mode] ?? 0) * (own ? 1 : this.yearsOfSite());
    return this.odds(faults, { kind: 'port', trunk: id }, 'port', mode);
  }

  ofStation(t: number, n: number, mode: string): number {
    const { id, nodeIds } = this.site.trunks[t]?.tree ?? { id: '', nodeIds: [] };
    const place = { kind: 'station', trunk: id, node: nodeIds[n] ?? '' } as const;
    return this.odds(this.expectedAt(t, n, 'station', mode), place, 'station', mode);
  }

  ofSpan(
    t: number,
    n: number,
    key: Exclude<keyof NodeWeights, 'station'>,
    mode: SpanMode,
    place: Place,
    component: ComponentName,
  ): number {
    return this.odds(this.expectedAt(t, n, key, mode), place, component, mode);
  }

  private odds(faults: number, place: Place, part: string, mode: string): number {
    return PASSING_SHARE * faults * this.looks.passingFactor(place, part, mode);
  }

  private expectedAt(t: number, n: number, key: keyof NodeWeights, mode: string): number {
    const tree = this.site.trunks[t]?.tree;
    if (!tree) return 0;
    const own: Table | undefined = this.nodes[t]?.get(tree.nodeIds[n] ?? '')?.[key];
    if (own) return own[mode] ?? 0;
    const { rates } = this.site;
    const table: Table =
      key === 'cable' ? rates.cablePerMetre : key === 'station' ? rates.station : rates.junction;
    const metres = key === 'cable' ? (tree.cableMetres[n] ?? 0) : 1;
    return (table[mode] ?? 0) * metres * (tree.years[n] ?? 0);
  }

  private yearsOfSite(): number {
    return this.expected ? 1 : this.request.exposureDays / DAYS_PER_YEAR;
  }
}
