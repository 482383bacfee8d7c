export const PHOTO_FORMATS = ['jpeg', 'png', 'webp'] as const;

export type PhotoFormat = (typeof PHOTO_FORMATS)[number];

export const MEDIA_TYPES: Readonly<Record<PhotoFormat, string>> = {
  jpeg: 'image/jpeg',
  png: 'image/png',
  webp: 'image/webp',
};

/** In bytes. */
export const LARGEST_PHOTO = 2_000_000;

/** What one ticket or one visit may have, with those that were withdrawn. */
export const MOST_PHOTOS = 30;

const JPEG_BEGINS = [0xff, 0xd8, 0xff];
const PNG_BEGINS = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
const RIFF = [0x52, 0x49, 0x46, 0x46];
const WEBP = [0x57, 0x45, 0x42, 0x50];

/** A picture’s format by its own first bytes, whatever it is called; undefined: none that is taken. */
export function photoFormatOf(bytes: Uint8Array): PhotoFormat | undefined {
  const has = (at: number, wanted: readonly number[]) =>
    wanted.every((byte, i) => bytes[at + i] === byte);
  if (has(0, JPEG_BEGINS)) return 'jpeg';
  if (has(0, PNG_BEGINS)) return 'png';
  if (has(0, RIFF) && has(8, WEBP)) return 'webp';
  return undefined;
}
