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

/** Whether a point lies in a polygon: a line from it crosses its sides an odd number of times. */
export function inside(outline: readonly Point[], x: number, y: number): boolean {
  return outline.reduce((within, [x1, y1], index) => {
    const [x0, y0] = outline.at(index - 1) ?? [x1, y1];
    return y1 > y !== y0 > y && x < x1 + ((y - y1) / (y0 - y1)) * (x0 - x1) ? !within : within;
  }, false);
}
