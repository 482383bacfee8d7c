export interface LineComplaint {
  line: number;
  reason: string;
}

const LF = 10;
const CR = 13;

/** The text of an uploaded sheet, or the lines that are not UTF-8. A byte order mark is dropped. */
export function decodeSheet(bytes: Uint8Array): { text: string } | { complaints: LineComplaint[] } {
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
    return refuse(1, 'the file is UTF-16; save it as CSV in UTF-8');
  }
  const nul = bytes.indexOf(0);
  if (nul >= 0) {
    return refuse(
      countLineBreaks(bytes, 0, nul) + 1,
      'there is a NUL in it: this is no text in UTF-8; save it as CSV in UTF-8',
    );
  }
  const text = decode(bytes);
  if (text !== undefined) return { text };
  const reason = 'is not UTF-8 (an older spreadsheet’s Windows-1252?); save it as CSV in UTF-8';
  const complaints: LineComplaint[] = [];
  let start = 0;
  for (let line = 1; start < bytes.length; line++) {
    const end = endOfLine(bytes, start);
    if (decode(bytes.subarray(start, end)) === undefined) complaints.push({ line, reason });
    start = end;
  }
  return { complaints };
}

/** Line breaks between two places: CRLF, a lone LF and a lone CR are one each. */
export function countLineBreaks(bytes: Uint8Array, start: number, end: number): number {
  let count = 0;
  for (let at = start; at < end; at++) {
    if (bytes[at] === LF || (bytes[at] === CR && bytes[at + 1] !== LF)) count++;
  }
  return count;
}

function endOfLine(bytes: Uint8Array, start: number): number {
  let end = start;
  while (end < bytes.length && bytes[end] !== LF && bytes[end] !== CR) end++;
  return bytes[end] === CR && bytes[end + 1] === LF ? end + 2 : end + 1;
}

function decode(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return undefined;
  }
}

function refuse(line: number, reason: string): { complaints: LineComplaint[] } {
  return { complaints: [{ line, reason }] };
}
