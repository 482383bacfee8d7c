/** A line of an iCalendar text is a name, perhaps parameters, a colon and a value (RFC 5545 3.1). */
const CONTENT = /^[A-Za-z0-9-]+(;[^:]*("[^"]*"[^:]*)*)?:/;

/** A line as it is numbered in the text; further ones that begin with a blank go on from it. */
interface TextLine {
  line: number;
  text: string;
}

function linesOf(text: string): TextLine[] {
  const lines: TextLine[] = [];
  for (const [index, line] of text.split(/\r\n|\n|\r/).entries()) {
    const before = lines.at(-1);
    if (/^[ \t]/.test(line) && before !== undefined) before.text += line.slice(1);
    else if (line.trim() !== '') lines.push({ line: index + 1, text: line });
  }
  return lines;
}

/** Where each event begins, in the order of the text. */
export function linesOfEvents(text: string): number[] {
  return linesOf(text)
    .filter((one) => /^BEGIN:VEVENT\s*$/i.test(one.text))
    .map(({ line }) => line);
}

/** Why a text is no calendar, and on which line; undefined: nothing is seen to be wrong with its lines. */
export function whereUnreadable(text: string): { line: number; reason: string } | undefined {
  const lines = linesOf(text.replace(/^\uFEFF/, ''));
  const [first] = lines;
  if (first === undefined || !/^BEGIN:VCALENDAR\s*$/i.test(first.text)) {
    const reason = 'is no iCalendar text: it does not begin with BEGIN:VCALENDAR';
    return { line: first?.line ?? 1, reason };
  }
  const open: { name: string; line: number }[] = [];
  for (const { line, text: content } of lines) {
    if (!CONTENT.test(content)) return { line, reason: 'has no name with a colon behind it' };
    const [, kind = '', name = ''] = /^(BEGIN|END):(\S+)\s*$/i.exec(content) ?? [];
    if (kind.toUpperCase() === 'BEGIN') open.push({ name: name.toUpperCase(), line });
    if (kind.toUpperCase() !== 'END') continue;
    if (open.pop()?.name !== name.toUpperCase()) {
      return { line, reason: `ends ${name}, which was not begun last` };
    }
  }
  const last = open.at(-1);
  return last && { line: last.line, reason: `begins ${last.name}, which is never ended` };
}
