/** A PNG of one point, in base 64. */
export const PIXEL =
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAQAAAC1HAwCAAAAC0lEQVR42mNk+A8AAQUBAScY42YAAAAASUVORK5CYII=';

/** Begins as a JPEG does and is so many bytes long, in base 64. */
export function jpegOf(bytes: number): string {
  const picture = Buffer.alloc(bytes, 7);
  picture.set([0xff, 0xd8, 0xff, 0xe0]);
  return picture.toString('base64');
}
