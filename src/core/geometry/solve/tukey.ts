/** Tukey's weight (1 − u²)² of a residual u times as large as where weights end; 0 beyond. */
export const tukeyWeight = (u: number): number => (Math.abs(u) < 1 ? (1 - u * u) ** 2 : 0);

/** Derivative of weight · residual there, (1 − u²)(1 − 5u²): what a residual adds to the curvature. */
export const tukeyBend = (u: number): number => (Math.abs(u) < 1 ? (1 - u * u) * (1 - 5 * u * u) : 0);
