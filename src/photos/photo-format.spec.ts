import { describe, expect, it } from '@jest/globals';
import { photoFormatOf } from './photo-format.js';

const bytes = (text: string) => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

describe('photoFormatOf', () => {
  // First bytes: ITU-T T.81 B.1 (JPEG), PNG 5.2, RFC 9649 section 2.4 (WebP).
  it('goes by the first bytes', () => {
    expect(photoFormatOf(bytes('\xff\xd8\xff\xe0more'))).toBe('jpeg');
    expect(photoFormatOf(bytes('\x89PNG\r\n\x1a\nmore'))).toBe('png');
    expect(photoFormatOf(bytes('RIFF\x10\0\0\0WEBPVP8 '))).toBe('webp');
  });

  it('takes nothing else', () => {
    for (const text of ['', '\xff', '\xff\xd8', 'GIF89a', '<svg xmlns=""/>', '<html>', '%PDF-1.7'])
      expect(photoFormatOf(bytes(text))).toBeUndefined();
    expect(photoFormatOf(bytes('RIFF\x10\0\0\0WAVEfmt '))).toBeUndefined();
    expect(photoFormatOf(bytes('\x89PNG\n\n\x1a\n'))).toBeUndefined();
    expect(photoFormatOf(bytes(' \xff\xd8\xff'))).toBeUndefined();
  });
});
