import type { HeightGrid } from '../../core/geometry/index.ts';
import { type ReliefPicture, reliefPicture } from './reliefPicture.ts';
import { type Thumbnail, thumbnail } from './thumbnail.ts';

/** What a relief that came out of a saved file is shown by. */
export interface StoredPicture {
  readonly picture: ReliefPicture;
  readonly thumbnail: Thumbnail;
}

/** The same pictures as of a face that was prepared here; of a full relief they take a second or more. */
export const storedPicture = (relief: HeightGrid): StoredPicture => ({
  picture: reliefPicture(relief),
  thumbnail: thumbnail(relief),
});
