import { grownUint32 } from './text/growing.ts';

/** Gathers faces of any number of corners as triangles; longer faces become fans and are noted as such. */
export class FaceGatherer {
  triangles: Uint32Array;
  /** Values of `triangles` in use. */
  used = 0;
  skipped = 0;
  private polygons = new Uint32Array(0);
  private polygonsUsed = 0;
  private first = 0;
  private last = 0;
  private corners = 0;

  constructor(expectedTriangles: number) {
    this.triangles = new Uint32Array(expectedTriangles * 3);
  }

  triangle(a: number, b: number, c: number): void {
    const at = this.used;
    if (at + 3 > this.triangles.length) this.triangles = grownUint32(this.triangles, at + 3);
    this.triangles[at] = a;
    this.triangles[at + 1] = b;
    this.triangles[at + 2] = c;
    this.used = at + 3;
  }

  /** One more corner of the face under way. */
  corner(index: number): void {
    if (this.corners === 0) this.first = index;
    else if (this.corners > 1) this.triangle(this.first, this.last, index);
    this.last = index;
    this.corners++;
  }

  /** Ends the face under way; one of fewer than three corners leaves nothing behind. */
  endFace(): void {
    const { corners } = this;
    if (corners > 3) {
      if (this.polygonsUsed + 2 > this.polygons.length)
        this.polygons = grownUint32(this.polygons, this.polygonsUsed + 2);
      this.polygons[this.polygonsUsed++] = this.used / 3 - (corners - 2);
      this.polygons[this.polygonsUsed++] = corners - 2;
    } else if (corners < 3) this.skipped++;
    this.corners = 0;
  }

  /** What was gathered, cut to length. */
  result(): { triangles: Uint32Array; polygons: Uint32Array; skippedFaces: number } {
    const { triangles, used } = this;
    return {
      triangles: used === triangles.length ? triangles : triangles.slice(0, used),
      polygons: this.polygons.slice(0, this.polygonsUsed),
      skippedFaces: this.skipped,
    };
  }
}
