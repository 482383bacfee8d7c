/**
 * A number as it is read off a meter: "23.1", "23,1", "-0.02". A point always begins the decimals;
 * a comma does too, unless it could as well part the thousands ("1,200").
 */
export function parseReading(entered: string): { value: number } | { reason: string } {
  const match = /^[+-]?(\d+)(?:([.,])(\d+))?$/.exec(entered.trim().replace('\u2212', '-'));
  if (match === null) return { reason: 'is not a number such as 23.1' };
  const [number, whole = '', mark, decimals = ''] = match;
  if (mark === ',' && decimals.length === 3 && Number(whole) !== 0 && whole.length <= 3) {
    const plain = `${whole}${decimals} or ${whole}.${decimals}`;
    return { reason: `could be thousands or thousandths; write ${plain}` };
  }
  const value = Number(number.replace(',', '.'));
  return Number.isFinite(value) ? { value } : { reason: 'is too large to be a reading' };
}
