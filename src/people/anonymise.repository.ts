import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';

/** Where the name of whoever did something stands as text. */
const NAMES = [
  ['tickets', 'opened_by'],
  ['ticket_entries', 'said_by'],
  ['observations', 'said_by'],
  ['visit_moves', 'moved_by'],
  ['visit_withdrawals', 'said_by'],
  ['readings', 'taken_by'],
  ['looks', 'said_by'],
  ['works_nearby', 'said_by'],
  ['works_nearby', 'withdrawn_by'],
  ['proven_points', 'tested_by'],
  ['as_built_versions', 'changed_by'],
  ['signatures', 'taken_by'],
  ['photos', 'taken_by'],
  ['photos', 'withdrawn_by'],
] as const;

@Injectable()
export class AnonymiseRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /** Where somebody's days begin, when they are off and what their van carries is of no use once nobody knows whose they are. */
  async forgetWorkingTime(personId: string): Promise<void> {
    const manager = await this.transaction.manager();
    for (const table of ['working_times', 'van_stocks']) {
      await manager.query(`DELETE FROM ${table} WHERE id = $1`, [personId]);
    }
  }

  /** Takes a name out of everything that happened; the rows themselves stay as they were. */
  async replaceName(name: string, by: string): Promise<void> {
    const manager = await this.transaction.manager();
    for (const [table, column] of NAMES) {
      await manager.query(`UPDATE ${table} SET ${column} = $2 WHERE ${column} = $1`, [name, by]);
    }
    await manager.query('UPDATE signatures SET name = $2, drawn = NULL WHERE name = $1', [
      name,
      by,
    ]);
    await manager.query('DELETE FROM received_requests WHERE position($1 IN answer) > 0', [
      JSON.stringify(name).slice(1, -1),
    ]);
  }
}
