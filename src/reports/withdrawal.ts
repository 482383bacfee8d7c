/** The log's entry as far as it withdraws something. */
interface Entry<Kind> {
  id: string;
  saidBy: string;
  saidByKind: Kind;
  happenedAt: Date;
  recordedAt: Date;
  details: { reason?: string | null };
}

export interface Withdrawable {
  firmId: string;
  withdrawalId: string | null;
}

/** Whether something counts: what was withdrawn stays, but is no evidence. */
export function stands({ withdrawalId }: Pick<Withdrawable, 'withdrawalId'>): boolean {
  return withdrawalId === null;
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
  return rows.map(({ firmId, withdrawalId, ...row }) => {
    return { ...row, withdrawal: withdrawals.get(withdrawalId ?? '') ?? null };
  });
}
