/** How the thumb steps the top: along the marks of the tape. */

/** The next height up or down on the tape: a whole number of eighths, or of 2 mm. */
export function steppedHeight(height: number, way: 1 | -1, step: number): number {
  const steps = height / step;
  const near = Math.round(steps);
  const from = Math.abs(steps - near) < 1e-6 ? near : way > 0 ? Math.floor(steps) : Math.ceil(steps);
  return (from + way) * step;
}
