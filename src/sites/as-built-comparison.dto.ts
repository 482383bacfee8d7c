import { ApiProperty } from '@nestjs/swagger';
import { NODE_KINDS, type NodeKind } from '../drawing/drawn-node.js';

type FieldValue = string | number | boolean | string[] | null;

const ANY_VALUE = {
  oneOf: [
    { type: 'string' },
    { type: 'number' },
    { type: 'boolean' },
    { type: 'array', items: { type: 'string' } },
    { type: 'null' },
  ],
};

/** One field that differs. */
export class FieldChangeDto {
  /** @example "unitSerial" */
  field!: string;

  @ApiProperty(ANY_VALUE)
  before!: FieldValue;

  @ApiProperty(ANY_VALUE)
  after!: FieldValue;
}

export class TrunkChangeDto {
  trunk!: string;
  fields!: FieldChangeDto[];
}

export class NodeNameDto {
  trunk!: string;
  node!: string;
  @ApiProperty({ enum: NODE_KINDS })
  kind!: NodeKind;
  room!: string | null;
  /** Whether the length of the span that feeds it is a guess. */
  isLengthGuessed!: boolean;
}

export class NodeChangeDto {
  trunk!: string;
  node!: string;
  /** Also `order`, its place among the nodes that are in both, when these were put in another order. */
  fields!: FieldChangeDto[];
}

/** What differs from one drawing to another; all lists empty: nothing. */
export class ChangesDto {
  headEnd!: FieldChangeDto[];
  trunksAdded!: string[];
  trunksRemoved!: string[];
  trunksChanged!: TrunkChangeDto[];
  nodesAdded!: NodeNameDto[];
  nodesRemoved!: NodeNameDto[];
  nodesChanged!: NodeChangeDto[];
}

export class AsBuiltComparisonDto extends ChangesDto {
  from!: number;
  to!: number;
}

/** What a change did. */
export class AsBuiltChangeDto {
  @ApiProperty({ format: 'uuid' })
  siteId!: string;

  /** The version that the record is at now; the ETag. */
  version!: number;

  /** Whether a new version was made: not when nothing differs, nor when it was only checked. */
  saved!: boolean;

  changes!: ChangesDto;
}
