/** A stretch of a ring whose letters all face one way: clockwise from one direction to the other about the band's centre. */
export interface FacingArc {
  readonly fromDeg: number;
  readonly toDeg: number;
  readonly facing: 'inward' | 'outward';
}

/** A run of places of a closed line of n places, laid from `first` on, forward (feet inward) or backward (feet outward). */
export interface Piece {
  readonly facing: 'inward' | 'outward';
  readonly first: number;
  readonly count: number;
}

/**
 * Arcs of a closed line of n places, each from its first place clockwise to the next one's, in the order in which they
 * are read from place `start` on: the arc that holds the start is cut there, its part that reads on from the start
 * comes first and the rest last; the arcs between follow clockwise. Backward arcs begin at their clockwise end. Every
 * place is in exactly one piece.
 */
export function piecesOf(
  arcs: readonly { readonly facing: 'inward' | 'outward'; readonly first: number }[],
  start: number,
  n: number,
): Piece[] {
  const after = (a: number, b: number): number => (((b - a) % n) + n) % n;
  const spans = arcs.map(({ facing, first }, k) => ({
    facing,
    first,
    count: after(first, arcs[(k + 1) % arcs.length].first) || n,
  }));
  const held = spans.findIndex(({ first, count }) => after(first, start) < count);
  const { facing, first, count } = spans[held];
  const into = after(first, start);
  const others = spans.map((_, k) => spans[(held + 1 + k) % spans.length]).slice(0, -1);
  const [head, tail] =
    facing === 'inward'
      ? [
          { first: start, count: count - into },
          { first, count: into },
        ]
      : [
          { first, count: into + 1 },
          { first: start + 1, count: count - into - 1 },
        ];
  const part = (span: { first: number; count: number }): Piece => laid(facing, span, n);
  return [part(head), ...others.map((span) => laid(span.facing, span, n)), part(tail)].filter(
    (piece) => piece.count > 0,
  );
}

const laid = (facing: Piece['facing'], { first, count }: { first: number; count: number }, n: number): Piece => ({
  facing,
  first: (facing === 'inward' ? first : first + count - 1) % n,
  count,
});
