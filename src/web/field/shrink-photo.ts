import { LARGEST_PHOTO } from '#app/photos/photo-format.js';

/** In points: a label on a terminal can be read. */
const LONGEST_SIDE = 1600;

const QUALITIES = [0.8, 0.6, 0.4] as const;

/**
 * A picture as it is sent: at most 1,600 points either way, as JPEG; what a camera writes along, as where it was taken, is not
 * in it. Throws where the browser cannot read it.
 */
export async function shrinkPhoto(file: Blob): Promise<Blob> {
  const picture = await createImageBitmap(file, { imageOrientation: 'from-image' });
  const scale = Math.min(1, LONGEST_SIDE / Math.max(picture.width, picture.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  for (const quality of QUALITIES) {
    const shrunk = await new Promise<Blob | null>((done) => {
      canvas.toBlob(done, 'image/jpeg', quality);
    });
    if (shrunk !== null && shrunk.size <= LARGEST_PHOTO) return shrunk;
  }
  throw new Error('The picture does not get small enough');
}
