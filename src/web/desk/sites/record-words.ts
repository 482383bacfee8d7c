import { stationName } from '../../parts/drawing/drawing-words.js';
import type { DraftTrunk, RecordEdit } from './record-edits.js';
import { RECORD_WORDS } from '../words/words.js';

/** A place of a draft by its room, else by its code. */
export function placeOf(trunks: readonly DraftTrunk[], trunk: string, code: string): string {
  const nodes = trunks.find((one) => one.trunk === trunk)?.nodes ?? [];
  const node = nodes.find((one) => one.node === code);
  return node === undefined ? code : stationName({ ...node, cableMetres: 0 });
}

export function fieldName(field: string): string {
  return RECORD_WORDS.fields[field] ?? field;
}

/** One change, as it is told. */
export function editInWords(edit: RecordEdit, trunks: readonly DraftTrunk[]): string {
  const { edits } = RECORD_WORDS;
  const place = (code: string) => placeOf(trunks, edit.trunk, code);
  switch (edit.kind) {
    case 'set':
      return edits.set(place(edit.node), fieldName(edit.field));
    case 'rename':
      return edits.rename(place(edit.node), edit.to);
    case 'insert':
      return edits.insert(place(edit.node));
    case 'move':
      return edits.move(place(edit.node));
    case 'feed':
      return edits.feed(
        place(edit.node),
        edit.fedFrom === null ? RECORD_WORDS.headEnd : place(edit.fedFrom),
      );
    case 'remove':
      return edits.remove(place(edit.node));
    case 'redraw':
      return edits.redraw(place(edit.way.from), place(edit.way.to));
    case 'trunk':
      return edits.trunk(edit.trunk);
  }
}

/** A field's value, as it is read. */
export function valueInWords(value: string | number | boolean | string[] | null): string {
  if (value === null || value === '') return '–';
  if (Array.isArray(value)) return value.length === 0 ? '–' : value.join(', ');
  if (typeof value === 'boolean') return value ? '✓' : '–';
  return String(value);
}
