import { ScanError } from '../error.ts';

const mebibyte = 2 ** 20;
/** What any file may cost, however small, and what each of its bytes adds to it. */
const freeBytes = 192 * mebibyte;
const bytesPerByte = 128;
const freeSteps = 2e7;
const stepsPerByte = 200;

/**
 * What reading one file may cost: memory in bytes, time in steps of work, both in proportion to what the file itself
 * holds. Readers ask before they allocate or loop over anything that the file claims, so that a claim is never
 * believed before the bytes for it are there. An honest scan needs 30 to 100 bytes a point and has a byte or more
 * for each; a file far denser than that unpacks to nothing but repetition. Both allowances count down and never up.
 */
export class Budget {
  private bytesLeft: number;
  private stepsLeft: number;

  constructor(fileBytes: number) {
    this.bytesLeft = freeBytes + bytesPerByte * fileBytes;
    this.stepsLeft = freeSteps + stepsPerByte * fileBytes;
  }

  /** Takes memory for `count` bytes; throws `tooLarge` where the file is not large enough to need it. */
  bytes(count: number): void {
    this.bytesLeft -= count;
    if (!(this.bytesLeft >= 0))
      throw new ScanError(
        'tooLarge',
        'the file unpacks to far more than a scan of its size holds; reduce the scan, or save it without compression.',
      );
  }

  /** Takes time for `count` steps of work; throws `tooLarge` where the file makes more of it than its size explains. */
  steps(count: number): void {
    this.stepsLeft -= count;
    if (!(this.stepsLeft >= 0))
      throw new ScanError(
        'tooLarge',
        'the file asks for far more work than a scan of its size needs; export the scan again as plain triangles.',
      );
  }
}
