/** Every limit that a gate holds a number against: docs/judge.md. */
export const evidenceDefaults = {
  support: 2.75,
  supportWithout: 1,
  /** Against, over a copy by hand: of all places, and no sector left out turns it round. */
  against: -1.5,
  againstWithout: 0,
  /** … of coarser scans than so many points across: their places err by more than is stated. */
  finePoints: 100,
  againstCoarse: -2.5,
  /** Places seen on both, and the share of them that lies nowhere near where the others put it. */
  leastPlaces: 12,
  /** … fewer, and less of the score, where no sector left out takes it below this: none carries what speaks for one matrix. */
  leastPlacesFirm: 9,
  supportFirm: 2,
  firmWithout: 1.75,
  mostOutliers: 0.35,
  leastOverlap: 0.3,
  /** Against needs a fit beyond doubt: more places, more overlap, a size that casting and shrinking give. */
  leastPlacesAgainst: 16,
  leastOverlapAgainst: 0.4,
  mostGrowth: 0.1,
  /**
   * Other design: the smaller image is at least so large a part of the greater. A piece might bear nothing but the legend, which may be cut anew on
   * the same matrix; one that is all but whole (`mostMissing` of its area) may be smaller, and smaller still where it is searched at its own scale.
   */
  leastAreaOfPiece: 0.5,
  mostMissing: 0.1,
  /** … and no piece is so much longer than the whole image beside it: wax beyond a wall that was not told counts as image then, and drowns what is left of it. */
  mostLengthOfPiece: 1.4,
  leastAreaShare: 0.15,
  leastAreaOwnScale: 0.04,
  /** … which is done where the greater is so many times as long: the bands of both have nothing to do with the smaller one then. */
  leastRatioOwnScale: 1.5,
  /** Against: the motif, in the middle of the face, must itself be off its places. */
  motifOff: -0.7,
  /**
   * … and half of the places have so much of their patch: what stands between holes is caught by their edges. Or so many have, and speak against by
   * themselves, too.
   */
  leastPatch: 0.75,
  leastWhole: 12,
  /** A rival turn that reaches this share of the best one's significance. */
  rivalShare: 0.75,
  /** … that leaves open which of the two is right, when something is spoken against. */
  rivalEqual: 0.9,
  /** For support a rival is none where its own places score so much less than those of the best one; of legends cut anew the two differ by 22 at most. */
  rivalBelow: 40,
  /** Nothing corresponds: the best place reaches at most this share of what two faces of one matrix would. docs/judge.md. */
  mostReached: 0.65,
  /** … and with heights as they are, where a deep motif outweighs letters that are worn or not filled. */
  mostReachedByHeight: 0.7,
  mostReachedOwnScale: 0.6,
  log10Chance: -4,
  /** Turn by turn: the best of all is no more than independent cells reach, and all together are this unlikely under one design. docs/judge.md. */
  mostReachedAnywhere: 5,
  mostOneDesign: 0.1,
  /** … where only what is missing of them keeps the faces from being clear: fine enough scans, relief all over both. */
  leastSpreadTurnByTurn: 0.15,
  leastPointsTurnByTurn: 100,
  /** … which carries what is compared all over, 0.29 to 0.39 on breech faces: beside a few deep pits two faces of one matrix keep less of their correlation. */
  leastCarriedTurnByTurn: 0.28,
  /** … and neither so much the smaller that it might lie where the other has its gap. */
  leastAreaTurnByTurn: 0.5,
  /** Median over 90 % quantile of the relief: far less where most of what was taken for the face is bare. */
  leastSpread: 0.13,
  /** … which may be emptier where the best place reaches no more than this of *clear*. */
  littleReached: 1 / 3,
  leastSpreadBesideLittle: 0.1,
  /** Share of the face that carries what is compared, half of what normal values have: 0.17 to 0.45 on faces, 0.08 to 0.19 where pits cover one. docs/tried/judge.md. */
  leastCarried: 1 / 6,
  /** Relief that runs one way only: 0.03 to 0.36 on faces, 0.5 and more on the side of a break. */
  mostOneWay: 0.45,
  /** What a reflection reaches nearly as well is borders and form; a true fit stands above it. */
  overMirror: 1.15,
};
