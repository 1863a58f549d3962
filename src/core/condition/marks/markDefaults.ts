export const markDefaults = {
  /** A line narrower than this may wander as a crack does. */
  crackWidthMm: 0.5,
  /** One as wide as a cut that wanders by this share is neither: a form of the design worn on one of the two. */
  mostStrayOfCut: 0.045,
  /** A line is at least so many times as long as wide; shorter marks are spots. */
  longerThanWide: 2.5,
  leastLineMm2: 0.4,
  /** … and at least so many cells: one vertex thrown out spreads over four or five. */
  leastLineCells: 6,
  /** … and where it is not sound, a line of the reference is read only when longer than this share of the size. */
  longOnWorn: 0.25,
  /** Lines longer than this share of the size are longer than letters are. */
  longerThanLetters: 0.12,
  /** A line of the reference is told from the seal's design only where the subject has surface along this share of it. */
  leastSeen: 0.5,
  /** Of a mark of the image this share lies within the image's hull: beyond it are bevel and cake. */
  leastWithin: 0.5,
  /** Largest pit of the matrix that is told from wear, mm². */
  mostPitMm2: 8,
};
