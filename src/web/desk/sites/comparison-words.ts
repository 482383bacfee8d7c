import type { ReadDrawnRecord, RecordComparison } from '../../parts/wire.js';
import { fieldName, placeOf, valueInWords } from './record-words.js';
import { RECORD_WORDS } from '../words/words.js';

type Trunks = ReadDrawnRecord['trunks'];
type Field = RecordComparison['headEnd'][number];

/** Each thing that differs between two versions, in words. */
export function comparisonInWords(
  { headEnd, trunksAdded, trunksRemoved, trunksChanged, ...nodes }: RecordComparison,
  { before, after }: { before: Trunks; after: Trunks },
): string[] {
  const { changed } = RECORD_WORDS;
  const field = (place: string, { field: name, before: was, after: is }: Field) =>
    changed.field(place, fieldName(name), valueInWords(was), valueInWords(is));
  return [
    ...headEnd.map((one) => field(changed.headEnd, one)),
    ...trunksAdded.map(changed.trunkAdded),
    ...trunksRemoved.map(changed.trunkRemoved),
    ...trunksChanged.flatMap(({ trunk, fields }) =>
      fields.map((one) => field(changed.trunk(trunk), one)),
    ),
    ...nodes.nodesAdded.map(({ trunk, node }) => changed.added(placeOf(after, trunk, node))),
    ...nodes.nodesRemoved.map(({ trunk, node }) => changed.removed(placeOf(before, trunk, node))),
    ...nodes.nodesChanged.flatMap(({ trunk, node, fields }) =>
      fields.map((one) => field(placeOf(after, trunk, node), one)),
    ),
  ];
}
