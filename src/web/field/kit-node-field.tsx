import { useLocation } from 'preact-iso';
import type { NameNode } from '#app/words/index.js';
import { PAGE_WORDS } from '../parts/language.js';
import { type NodeChosen, NodeField, nodeOf } from '../parts/node-field.js';
import type { ReadKit } from '../parts/wire.js';
import { FIELD_WORDS } from './field-words.js';

interface KitNodeFieldProps {
  label: string;
  kit: ReadKit;
  value: NodeChosen | undefined;
  onValue: (chosen: NodeChosen | undefined) => void;
  /** What stands for none; left out: one must be chosen. */
  none?: string;
  error?: string | undefined;
}

/** A place of the kit's drawing. */
export function KitNodeField({ kit, none = FIELD_WORDS.choose, ...rest }: KitNodeFieldProps) {
  return <NodeField {...rest} cables={kit.drawing.trunks} none={none} />;
}

/** The room that the address names, as the label of a unit does. */
export function useNodeOfAddress(): NodeChosen | undefined {
  return nodeOf(useLocation().query['at']);
}

export function nameNodesIn(kit: ReadKit): NameNode {
  return (trunk, node) => {
    const drawn = kit.drawing.trunks
      .find((one) => one.trunk === trunk)
      ?.nodes.find((one) => one.node === node);
    return drawn?.room ?? PAGE_WORDS.unit(node);
  };
}
