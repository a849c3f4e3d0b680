/** The blue figures along the chosen board: what they say and where they stand, so that names can give way to them. */
import { cards } from "../card/cards.svelte";
import { job } from "../core/job.svelte";
import { length } from "../core/units";
import { toScreen, type Point, type Viewport } from "../core/viewport";
import type { Along, BoardShown, Card } from "../core/wire";
import type { Rect } from "./placing";
import { previewed } from "./running";

export const OFF = 34; // px from the board to its dimension line
const FIGURE = 8.4; // px of a figure at 14, 600

/** The lower end first: figures run from the foot. */
export function footAndHead(board: BoardShown): [Point, Point] {
  const [one, other] = board.line;
  return one[1] <= other[1] ? [one, other] : [other, one];
}

/** The unit vector from foot to head on the screen, and the one towards the figures. */
export function ways(board: BoardShown, view: Viewport): { along: Point; aside: Point } {
  const [foot, head] = footAndHead(board);
  const [from, to] = [toScreen(view, foot), toScreen(view, head)];
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const along: Point = [(to[0] - from[0]) / long, (to[1] - from[1]) / long];
  return { along, aside: along[1] < -0.02 ? [along[1], -along[0]] : [-Math.abs(along[1]), -Math.abs(along[0])] };
}

/** The card, where it is of this board as it is drawn now. */
export function knownOf(board: BoardShown): Card | null {
  const card = cards.now;
  return job.preview === null && card?.what === "board" && card.title === board.name && card.revision === job.state?.drawn ? card : null;
}

export function runsOf(board: BoardShown): readonly Along[] {
  return knownOf(board)?.dimensions ?? previewed(board, job.jointsOf(board.name), footAndHead(board)[0]);
}

export interface Said {
  readonly words: string;
  readonly place: { x: number; y: number; anchor: "end" | "middle" };
  /** Of figures that would stand on each other the one nearer the foot is said. */
  readonly said: boolean;
}

export function saidAlong(board: BoardShown, runs: readonly Along[], view: Viewport, units: Parameters<typeof length>[1]): Said[] {
  const { along, aside } = ways(board, view);
  const steep = Math.abs(along[1]) > 0.5;
  const from = toScreen(view, footAndHead(board)[0]);
  let last = -Infinity;
  return runs.map((run) => {
    const [x, y] = toScreen(view, run.end);
    const at = Math.hypot(x - from[0], y - from[1]);
    const said = at - last >= (steep ? 16 : 48);
    if (said) last = at;
    const [lineX, lineY] = [x + aside[0] * OFF, y + aside[1] * OFF];
    return { words: length(run.value, units), said, place: steep ? { x: lineX - 8, y: lineY - 7, anchor: "end" } : { x: lineX, y: lineY - 10, anchor: "middle" } };
  });
}

/** The room that the figures take, px. */
export function figureRects(all: readonly Said[]): Rect[] {
  return all.filter((one) => one.said).map(({ words, place: { x, y, anchor } }) => {
    const wide = words.length * FIGURE;
    const right = anchor === "end" ? x : x + wide / 2;
    return { left: right - wide - 3, right: right + 3, top: y - 13, bottom: y + 6 };
  });
}
