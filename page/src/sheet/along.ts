/** The blue figures along the chosen board: what they say and where they stand, so that names can give way to them. */
import { cards } from "../card/cards.svelte";
import { job } from "../core/job.svelte";
import type { Rect } from "../core/rect";
import { rowsOf } from "../core/rows";
import { length } from "../core/units";
import { toScreen, type Point, type Viewport } from "../core/viewport";
import type { Along, BoardShown, Card, Pair } from "../core/wire";

export const OFF = 34; // px from the board to its dimension line
const FIGURE = 8.4; // px of a figure at 14, 600
const HIGH = 15;
const ROWS = 6;

/** The foot first, from where its figures run. */
export function footAndHead(board: BoardShown): [Point, Point] {
  const [one, other] = board.line;
  return [board.along[0]?.start ?? one, board.along.find((run) => run.joint === null)?.end ?? other];
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

export function otherOf(pair: Pair, board: string): string {
  return pair[0] === board ? pair[1] : pair[0];
}

export interface Said {
  readonly run: Along;
  readonly words: string;
  readonly place: { x: number; y: number; anchor: "end" | "middle" };
  /** How many rows farther out than the first it stands. */
  readonly row: number;
  /** There is no room for it: it is counted. */
  readonly left: boolean;
}

/** All figures of a board; those that would stand on each other farther out. */
export function saidAlong(board: BoardShown, view: Viewport, units: Parameters<typeof length>[1]): Said[] {
  const { along, aside } = ways(board, view);
  const steep = Math.abs(along[1]) > 0.5;
  const from = toScreen(view, footAndHead(board)[0]);
  const runs = board.along.filter((run, index) => run.value !== board.along[index - 1]?.value || index === 0); // two joints at one place are one figure
  const words = runs.map((run) => length(run.value, units));
  const wides = words.map((one) => one.length * FIGURE);
  const spans = runs.map((run, index) => {
    const [x, y] = toScreen(view, run.end);
    return { at: Math.hypot(x - from[0], y - from[1]), wide: steep ? HIGH : (wides[index] ?? 0) };
  });
  const rows = rowsOf(spans, ROWS, steep ? 1 : 8);
  const out = steep ? Math.max(0, ...wides) + 10 : HIGH + 2;
  return runs.map((run, index) => {
    const [x, y] = toScreen(view, run.end);
    const row = rows[index] ?? 0;
    const [lineX, lineY] = [x + aside[0] * OFF, y + aside[1] * OFF];
    const place = steep ? { x: lineX - 8 - row * out, y: lineY - 7, anchor: "end" as const } : { x: lineX, y: lineY - 10 - row * out, anchor: "middle" as const };
    return { run, words: words[index] ?? "", row, left: rows[index] === null, place };
  });
}

/** The room that the figures take, px. */
export function figureRects(all: readonly Said[]): Rect[] {
  return all.filter((one) => !one.left).map(({ words, place: { x, y, anchor } }) => {
    const wide = words.length * FIGURE;
    const right = anchor === "end" ? x : x + wide / 2;
    return { left: right - wide - 3, right: right + 3, top: y - 13, bottom: y + 6 };
  });
}
