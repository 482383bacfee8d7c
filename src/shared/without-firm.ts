/** A row as its owner sees it: whose it is goes without saying. */
export function withoutFirm<Row extends { firmId: string }>(row: Row): Omit<Row, 'firmId'> {
  const { firmId, ...rest } = row;
  return rest;
}
