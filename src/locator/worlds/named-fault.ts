/**
 * A fault that a world names, as positions in a SiteModel. In a span it is a class of effects (EFFECTS) of one of its
 * three components, or, with `component` null, of any of them; at a station a class of modes, or the short.
 */
export type NamedFault =
  | { readonly at: 'head-end'; readonly group: number }
  | { readonly at: 'port'; readonly trunk: number }
  | {
      readonly at: 'span';
      readonly trunk: number;
      readonly node: number;
      readonly effect: number;
      readonly component: number | null;
    }
  | {
      readonly at: 'station';
      readonly trunk: number;
      readonly node: number;
      readonly group: number;
    };

/** In `group` of a station: not a class of modes, but the short. */
export const STATION_SHORT = -1;

/** Where the fault is, apart from how it failed: one world names one fault there. */
export function faultSpot(fault: NamedFault): string {
  if (fault.at === 'head-end') return '';
  return fault.at === 'port' ? `${fault.trunk}` : `${fault.trunk} ${fault.node} ${fault.at}`;
}
