import { Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';
import { FIRM_OF_TRANSACTION } from '../database/firm-row.js';
import { Contract } from './contract.entity.js';

/** A site that a contract covers. */
@Entity('contract_sites')
@Index(['firmId', 'siteId'])
@ForeignKey(() => Contract, ['firmId', 'contractId'], ['firmId', 'id'])
@ForeignKey('Site', ['firmId', 'siteId'], ['firmId', 'id'])
export class ContractSite {
  @PrimaryColumn('uuid', { name: 'firm_id', default: FIRM_OF_TRANSACTION })
  firmId!: string;

  @PrimaryColumn('uuid')
  contractId!: string;

  @PrimaryColumn('uuid')
  siteId!: string;
}
