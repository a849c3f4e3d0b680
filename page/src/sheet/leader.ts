import { runsThrough, type Rect } from "../core/rect";
import { toScreen, type Point, type Viewport } from "../core/viewport";
import type { BoardShown } from "../core/wire";

const TRIES = 25;
const STEP = 36; // px between the bends that are tried
const NEAR = 10; // px about its own end, where what stands belongs to the place itself
const ALONG = 12; // degrees: a leader within this of a board's own direction seems to run along it

/** Where a leader turns up from the hand's line: it may cross level boards, not a word or figure, nor run along or hide an upright. */
export function bend(to: Point, y: number, width: number, boards: readonly BoardShown[], view: Viewport, texts: readonly Rect[] = []): number {
  const others = texts.filter((one) => to[0] < one.left - NEAR || to[0] > one.right + NEAR || to[1] < one.top - NEAR || to[1] > one.bottom + NEAR);
  const steep = boards.flatMap((board) => {
    const [from, end] = [toScreen(view, board.line[0]), toScreen(view, board.line[1])];
    return Math.abs(end[1] - from[1]) > Math.abs(end[0] - from[0]) ? [{ from, end }] : [];
  });
  let best = { x: to[0], fault: Infinity };
  for (let step = 0; step < TRIES; step += 1) {
    const x = Math.min(width - 8, Math.max(40, to[0] + (step % 2 === 0 ? 1 : -1) * Math.ceil(step / 2) * STEP + 30));
    const fault = steep.reduce((sum, board) => sum + faultOf([x, y], to, board.from, board.end), 0) + others.filter((one) => runsThrough(one, [x, y], to, 2)).length * 6 + step * 0.1;
    if (fault < best.fault) best = { x, fault };
  }
  return best.x;
}

function faultOf(from: Point, to: Point, one: Point, other: Point): number {
  const turn = Math.abs(direction(from, to) - direction(one, other));
  const near = Math.min(turn, 180 - turn);
  const crosses = side(from, to, one) * side(from, to, other) < 0 && side(one, other, from) * side(one, other, to) < 0;
  return (crosses ? 2 : 0) + (near < ALONG && (crosses || distance(to, one, other) < 14) ? 4 : 0);
}

const direction = (from: Point, to: Point): number => ((Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI + 360) % 180;
const side = (from: Point, to: Point, at: Point): number => (to[0] - from[0]) * (at[1] - from[1]) - (to[1] - from[1]) * (at[0] - from[0]);
const distance = (at: Point, from: Point, to: Point): number => Math.abs(side(from, to, at)) / (Math.hypot(to[0] - from[0], to[1] - from[1]) || 1);
