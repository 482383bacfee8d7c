import type { ComponentChildren } from 'preact';
import { since } from './time-words.js';
import type { ReadPhoto } from './wire.js';

/** What a place says of photos. */
export interface PhotoWords {
  /** Under a picture. */
  by: (name: string, age: string) => string;
  withdrawn: (name: string, reason: string) => string;
  /** Where there is no caption, and no picture any more. */
  noCaption: string;
}

interface PhotoListProps {
  photos: readonly ReadPhoto[];
  words: PhotoWords;
  /** What can be done about one. */
  children?: (photo: ReadPhoto) => ComponentChildren;
}

/** Photos of a ticket or a visit, oldest first; of one that was withdrawn, why. */
export function PhotoList({ photos, words, children }: PhotoListProps) {
  return (
    <ul class="photos">
      {photos.map((photo) => (
        <li key={photo.id}>
          {photo.withdrawal === null ? (
            <a href={`/api/v1/photos/${photo.id}/image`} target="_blank" rel="noreferrer">
              <img
                src={`/api/v1/photos/${photo.id}/image`}
                alt={photo.caption ?? words.noCaption}
                loading="lazy"
              />
            </a>
          ) : (
            <p class="soft">{words.withdrawn(photo.withdrawal.by, photo.withdrawal.reason)}</p>
          )}
          {photo.caption !== null && <p>{photo.caption}</p>}
          <p class="soft">{words.by(photo.takenBy, since(photo.takenAt, new Date()))}</p>
          {photo.withdrawal === null && children?.(photo)}
        </li>
      ))}
    </ul>
  );
}
