import { Column, Entity, PrimaryColumn } from 'typeorm';

@Entity('firms')
export class Firm {
  @PrimaryColumn('uuid', {
    name: 'firm_id',
    default: () => "(current_setting('app.firm_id'))::uuid",
  })
  firmId!: string;

  @Column('text')
  name!: string;

  @Column('timestamptz')
  createdAt!: Date;
}
