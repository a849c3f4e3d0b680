/** Where the dimensions over all stand: the width under the piece, or under the floor's figures; the height right of the wall. */
import type { Rect } from "../core/rect";
import { sizeOf, stands } from "../core/size";
import { length, type LengthUnit } from "../core/units";
import { toScreen, type Point, type Viewport } from "../core/viewport";
import type { Elevation } from "../core/wire";

const FIGURE = 8.4; // px of a figure at 14
const UNDER = 26; // px under a piece that hangs
const BESIDE = 22; // px right of the wall

export interface Over {
  readonly words: string;
  /** From where to where it is measured on the screen, and the ends of its dimension line. */
  readonly from: readonly [Point, Point];
  readonly line: readonly [Point, Point];
  /** The middle of the figure. */
  readonly at: Point;
  /** What the figure takes, and its line. */
  readonly rects: readonly Rect[];
}

/**
 * Width and height of what is drawn.
 * @param rows of figures under the floor
 */
export function overall(drawing: Elevation, view: Viewport, units: LengthUnit, rows: number): Over[] {
  const size = sizeOf(drawing);
  if (!size) return [];
  const [left, foot] = toScreen(view, [size.left, size.foot]);
  const [right, head] = toScreen(view, [size.right, size.head]);
  const floor = toScreen(view, [0, Math.min(0, drawing.extent[1])])[1]; // or what lies below it
  const y = stands(size, drawing.extent) ? floor + 40 + rows * 15 : foot + UNDER;
  const x = toScreen(view, [drawing.extent[2], 0])[0] + BESIDE;
  return [
    placed(length(size.right - size.left, units), [[left, foot], [right, foot]], [[left, y], [right, y]]),
    placed(length(size.head - size.foot, units), [[right, foot], [right, head]], [[x, foot], [x, head]]),
  ];
}

function placed(words: string, from: Over["from"], line: Over["line"]): Over {
  const at: Point = [(line[0][0] + line[1][0]) / 2, (line[0][1] + line[1][1]) / 2];
  const half = (words.length * FIGURE) / 2 + 4;
  const [[x0, y0], [x1, y1]] = line;
  const run: Rect = { left: Math.min(x0, x1) - 3, right: Math.max(x0, x1) + 3, top: Math.min(y0, y1) - 3, bottom: Math.max(y0, y1) + 3 };
  return { words, from, line, at, rects: [{ left: at[0] - half, right: at[0] + half, top: at[1] - 9, bottom: at[1] + 9 }, run] };
}
