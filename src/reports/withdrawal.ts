/** The log's entry as far as it withdraws something. */
interface Entry<Kind> {
  id: string;
  saidBy: string;
  saidByKind: Kind;
  happenedAt: Date;
  recordedAt: Date;
  details: { reason?: string | null };
}

/** What can be entered on a visit and taken back. */
export type WithdrawnOnVisit = 'reading' | 'look' | 'walk-test';

export interface Withdrawable {
  firmId: string;
  withdrawalId: string | null;
  /** The entry of a visit's log that withdrew it. */
  visitWithdrawalId?: string | null;
}

/** Whether something counts: what was withdrawn stays, but is no evidence. */
export function stands(row: Omit<Withdrawable, 'firmId'>): boolean {
  return withdrawalOf(row) === null;
}

/** The entry of a ticket's log, or of a visit's, that withdrew it; null where none did. */
export function withdrawalOf({
  withdrawalId,
  visitWithdrawalId = null,
}: Omit<Withdrawable, 'firmId'>): string | null {
  return withdrawalId ?? visitWithdrawalId;
}

/** Rows as their owner sees them, with who withdrew them, when and why; null where nobody did. */
export function withWithdrawals<Row extends Withdrawable, Kind>(
  rows: readonly Row[],
  entries: readonly Entry<Kind>[],
) {
  const withdrawals = new Map(
    entries.map(({ id, saidBy, saidByKind, happenedAt, recordedAt, details }) => {
      const reason = details.reason ?? '';
      return [id, { id, saidBy, saidByKind, happenedAt, recordedAt, reason }];
    }),
  );
  return rows.map(({ firmId, withdrawalId, visitWithdrawalId, ...row }) => {
    const id = withdrawalOf({ withdrawalId, visitWithdrawalId: visitWithdrawalId ?? null });
    return { ...row, withdrawal: withdrawals.get(id ?? '') ?? null };
  });
}
