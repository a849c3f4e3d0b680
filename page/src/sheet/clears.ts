/** The clear openings of the chosen bay and its neighbours: what is said of them and where, so that names can give way to them. */
import type { Rect } from "../core/rect";
import { length, type LengthUnit } from "../core/units";
import { toScreen, type Point, type Viewport } from "../core/viewport";
import type { BayCard, BoardShown, Opening } from "../core/wire";
import { crossesBoard } from "./placing";
import type { Place } from "./typing.svelte";

const FIGURE = 7.2; // px of a figure at 14, 600
const LEAST = 34; // px: a shorter dimension has no room for two heads
const FROM_END = 0.3; // of the opening: where its figure stands, off the other's line
const BESIDE = 5; // px from an upright dimension to its figure

export interface Clear {
  readonly opening: Opening;
  /** Of the chosen bay, not of a neighbour. */
  readonly own: boolean;
  readonly from: Point;
  readonly to: Point;
  readonly words: string;
  readonly place: Place;
  readonly rect: Rect;
}

/** Of neighbours those that there is room for; figures off boards as far as that goes. */
export function clears(card: BayCard, boards: readonly BoardShown[], view: Viewport, units: LengthUnit): Clear[] {
  const free = ({ rect }: Spot): boolean => !boards.some((board) => crossesBoard(rect, board, view));
  return card.openings.flatMap((opening) => opening.row.flatMap((span, index): Clear[] => {
    const at = (place: number): Point => toScreen(view, opening.axis === "x" ? [place, opening.line] : [opening.line, place]);
    const [from, to] = [at(span.start), at(span.end)];
    const own = index === opening.here;
    const words = length(span.end - span.start, units);
    const wide = words.length * FIGURE;
    const [x, y] = [from[0] + (to[0] - from[0]) * FROM_END, from[1] + (to[1] - from[1]) * FROM_END];
    const spots = opening.axis === "x" ? [spotted(x, y - 7, "middle", wide)] : [spotted(x + BESIDE, y + 5, "start", wide), spotted(x - BESIDE, y + 5, "end", wide)];
    const spot = spots.find(free) ?? spots[0];
    const long = Math.hypot(to[0] - from[0], to[1] - from[1]);
    return spot && (own || long > LEAST) ? [{ opening, own, from, to, words, ...spot }] : [];
  }));
}

interface Spot {
  readonly place: Place;
  readonly rect: Rect;
}

function spotted(x: number, y: number, anchor: Place["anchor"], wide: number): Spot {
  const start = anchor === "middle" ? x - wide / 2 : anchor === "end" ? x - wide : x;
  return { place: { x, y, anchor }, rect: { left: start - 2, right: start + wide + 2, top: y - 13, bottom: y + 6 } };
}
