/** A name in at most two lines of about so many characters; what does not fit ends in "…". */
export function labelLines(name: string, characters: number): string[] {
  if (name.length <= characters) return [name];
  const words = name.split(' ');
  let first = words.shift() ?? '';
  while (words[0] !== undefined && `${first} ${words[0]}`.length <= characters)
    first = `${first} ${words.shift() ?? ''}`;
  const second = words.join(' ');
  return [first, second].filter((line) => line !== '').map((line) => cut(line, characters));
}

function cut(line: string, characters: number): string {
  return line.length <= characters ? line : `${line.slice(0, characters - 1)}…`;
}
