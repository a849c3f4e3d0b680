/** The running dimensions laid out: levels left of the wall, positions under the floor, studs above; and the room they take. */
import type { Rect } from "../core/rect";
import { spread } from "../core/rows";
import { length, type LengthUnit } from "../core/units";
import { toScreen, type Viewport } from "../core/viewport";
import type { Dimension, Elevation, Line } from "../core/wire";
import { figures, type Figure } from "./running";

const DIGIT = 8.4; // px at 14
export const HIGH = 15;

export interface Laid {
  /** Where the lines run, px: x of the levels, y of the positions, under the floor and what lies below it, y of the studs. */
  readonly line: { readonly x: number; readonly y: number; readonly studs: number };
  readonly levels: readonly Figure[];
  /** Y of each level's figure: never nearer than a line. */
  readonly stand: readonly number[];
  /** Levels that have no room. */
  readonly unsaid: number;
  readonly across: readonly Figure[];
  readonly studs: readonly Figure[];
  /** What all their figures take, px. */
  readonly rects: readonly Rect[];
}

/**
 * @param chosen boards whose figures are never left out
 * @param rows of figures under the floor, that there is room for
 */
export function laid(drawing: Elevation, view: Viewport, units: LengthUnit, chosen: ReadonlySet<string>, rows: number): Laid {
  const origin = toScreen(view, [0, 0]);
  const line = { x: origin[0] - 28, y: toScreen(view, [0, Math.min(0, drawing.extent[1])])[1] + 22, studs: toScreen(view, [0, drawing.extent[3]])[1] - 18 };
  const wide = (value: number): number => length(value, units).length * DIGIT;
  const x = (value: number): number => toScreen(view, [value, 0])[0];
  const ups = drawing.dimensions.filter((one) => one.axis === "y" && one.value !== 0);
  const all = new Set(ups.map((one) => one.value)).size;
  const crowded = all * HIGH > origin[1]; // one above the other they would run out of the sheet
  const every = figures(ups, (value) => toScreen(view, [0, value])[1], () => (crowded ? HIGH : 0), chosen, crowded ? 1 : Math.max(1, all));
  const levels = every.filter((one) => one.row !== null);
  const stand = spread(levels.map((one) => one.at), HIGH);
  const across = figures(drawing.dimensions.filter((one) => one.axis === "x" && one.value !== 0), x, wide, chosen, rows);
  const lines = drawing.wall.flatMap((drawn) => (drawn.kind === "line" && drawn.pen === "stud" ? [stud(drawn)] : []));
  const studs = figures(lines, x, wide, chosen);
  const rect = (right: number, foot: number, value: number): Rect => ({ left: right - wide(value), right, top: foot - 13, bottom: foot + 3 });
  const middle = (figure: Figure, foot: number): Rect[] => (figure.row === null ? [] : [rect(figure.at - 4 + wide(figure.value) / 2, foot + figure.row * HIGH, figure.value)]);
  return {
    line, levels, stand, across, studs, unsaid: every.length - levels.length,
    rects: [
      ...levels.map((figure, index) => rect(line.x - 11, (stand[index] ?? figure.at) + 5, figure.value)),
      ...across.flatMap((figure) => middle(figure, line.y + 18)),
      ...studs.flatMap((figure) => middle(figure, line.studs - 7)),
    ],
  };
}

const stud = (line: Line): Dimension => ({ axis: "x", value: line.points[0]?.[0] ?? 0, of: "stud", board: "", path: null });
