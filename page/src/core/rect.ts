import type { Point } from "./viewport";

/** A place on the screen, in px. */
export interface Rect {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export function overlaps(one: Rect, other: Rect): boolean {
  return one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom;
}

/** Whether a straight line runs through a rectangle that is `grow` larger on every side. */
export function runsThrough(rect: Rect, from: readonly [number, number], to: readonly [number, number], grow = 0): boolean {
  let [low, high] = [0, 1];
  const bounds: [number, number, number, number][] = [
    [from[0], to[0] - from[0], rect.left - grow, rect.right + grow],
    [from[1], to[1] - from[1], rect.top - grow, rect.bottom + grow],
  ];
  for (const [start, run, least, most] of bounds) {
    if (Math.abs(run) < 1e-9) {
      if (start < least || start > most) return false;
      continue;
    }
    const [one, other] = [(least - start) / run, (most - start) / run];
    low = Math.max(low, Math.min(one, other));
    high = Math.min(high, Math.max(one, other));
  }
  return low <= high;
}

/** Whether a point lies in a polygon: a line from it crosses its sides an odd number of times. */
export function inside(outline: readonly Point[], x: number, y: number): boolean {
  return outline.reduce((within, [x1, y1], index) => {
    const [x0, y0] = outline.at(index - 1) ?? [x1, y1];
    return y1 > y !== y0 > y && x < x1 + ((y - y1) / (y0 - y1)) * (x0 - x1) ? !within : within;
  }, false);
}
