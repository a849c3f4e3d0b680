/** How large what is drawn is over all: the box around its boards, mm. */
import type { Elevation } from "./wire";

export interface Size {
  readonly left: number;
  readonly foot: number;
  readonly right: number;
  readonly head: number;
  readonly deep: number;
}

/** Null where nothing is drawn. */
export function sizeOf({ boards }: Pick<Elevation, "boards">): Size | null {
  if (boards.length === 0) return null;
  let [left, foot, right, head, back, front] = [Infinity, Infinity, -Infinity, -Infinity, Infinity, -Infinity];
  for (const board of boards) {
    for (const [x, y] of board.outline) [left, right, foot, head] = [Math.min(left, x), Math.max(right, x), Math.min(foot, y), Math.max(head, y)];
    [back, front] = [Math.min(back, board.back), Math.max(front, board.front)];
  }
  return Number.isFinite(left) ? { left, foot, right, head, deep: front - back } : null;
}

const LOW = 0.06; // of the wall's height: a piece that stands lower has no room under it for a dimension

/** Whether it stands on the floor, or so near it that nothing can be written under it. */
export function stands(size: Size, extent: Elevation["extent"]): boolean {
  return size.foot < (extent[3] - extent[1]) * LOW;
}
