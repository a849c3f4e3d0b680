/** Where marks and names stand beside what they speak of: sight only, nothing of it is saved. */
import type { BoardShown, JointShown } from "../core/wire";
import { overlaps, runsThrough, type Rect } from "../core/rect";
import { toScreen, type Point, type Viewport } from "../core/viewport";

const NEAR_END = 40; // mm: a board whose end is this near a joint's middle ends there
const FLAT_ANGLE = 170;

/** Directions on the screen, in degrees from right towards down, in which wood leaves a joint. */
export function rays(joint: JointShown, boards: ReadonlyMap<string, BoardShown>): number[] {
  const found: number[] = [];
  for (const name of joint.boards) {
    for (const end of boards.get(name)?.line ?? []) {
      const [dx, dy] = [end[0] - joint.at[0], end[1] - joint.at[1]];
      if (Math.hypot(dx, dy) > NEAR_END) found.push((Math.atan2(-dy, dx) * 180) / Math.PI);
    }
  }
  return found;
}

/** The middle of the widest angle between rays that is less than flat, and half its width; the upper right if alike. */
export function widest(all: readonly number[]): { middle: number; half: number } {
  const sorted = [...all].map((angle) => ((angle % 360) + 360) % 360).sort((one, other) => one - other);
  let best = { middle: -45, half: 45 };
  let score = -Infinity;
  sorted.forEach((angle, index) => {
    const next = sorted[(index + 1) % sorted.length] ?? angle;
    const gap = index + 1 < sorted.length ? next - angle : next + 360 - angle;
    if (gap > FLAT_ANGLE && sorted.length > 2) return;
    const middle = angle + gap / 2;
    const upperRight = Math.cos(((middle + 45) * Math.PI) / 180);
    const here = Math.min(gap, FLAT_ANGLE) + upperRight;
    if (here > score) [score, best] = [here, { middle, half: gap / 2 }];
  });
  return best;
}

export const HIGH = 15; // px of a line of words at 13.5
export const LETTER = 6.6; // px of an average letter at 13.5
const WALL = "wall"; // what a fixing goes into: each of its places has a mark

export interface MarkPlace {
  readonly joint: JointShown;
  readonly x: number;
  readonly y: number;
  /** All that are marked there, `joint` the first of them. */
  readonly near: readonly JointShown[];
}

/** Where each joint's mark stands; of marks within 14 px of each other one is shown, with a count. */
export function markPlaces(joints: readonly JointShown[], boards: ReadonlyMap<string, BoardShown>, view: Viewport): MarkPlace[] {
  const placed: { joint: JointShown; x: number; y: number; near: JointShown[] }[] = [];
  for (const joint of joints) {
    if (joint.boards.includes(WALL)) {
      for (const at of [joint.at, ...joint.also]) {
        const [x, y] = toScreen(view, at);
        placed.push({ joint, x, y, near: [joint] });
      }
      continue;
    }
    const [x, y] = markPlace(joint, boards, view);
    const near = placed.find((other) => Math.abs(other.x - x) < 14 && Math.abs(other.y - y) < 14);
    if (near) near.near.push(joint);
    else placed.push({ joint, x, y, near: [joint] });
  }
  return placed;
}

function markPlace(joint: JointShown, boards: ReadonlyMap<string, BoardShown>, view: Viewport): Point {
  const [x, y] = toScreen(view, joint.at);
  const thick = Math.max(...joint.boards.map((name) => boards.get(name)?.thickness ?? 0)) * view.scale;
  const { middle, half } = widest(rays(joint, boards));
  const away = (thick / 2 + 10) / Math.max(0.45, Math.sin((Math.min(half, 90) * Math.PI) / 180));
  const angle = (middle * Math.PI) / 180;
  return [x + away * Math.cos(angle), y + away * Math.sin(angle)];
}

/**
 * Where what is said of a mark stands: right of it, left, above or below, off boards and what has its place already.
 * @param round px from the mark's middle to its edge
 */
export function besideMark(mark: { readonly x: number; readonly y: number }, said: string, round: number, boards: readonly BoardShown[], view: Viewport, used: readonly Rect[]): Spot {
  const { x, y } = mark;
  const wide = said.length * LETTER;
  const spots = [spot(x + round + 2, y + 5, "start", wide), spot(x - round - 2, y + 5, "end", wide), spot(x, y - round - 4, "middle", wide), spot(x, y + round + 13, "middle", wide)];
  const lines = boards.map((board) => lineOf(board, view));
  const fault = (one: Spot): number => faults(one.rect, null, lines, used);
  return spots.reduce((best, next) => (fault(next) < fault(best) ? next : best));
}

export interface Label {
  readonly name: string;
  /** The name, or as much of it as there is room for on a drawing. */
  readonly said: string;
  readonly x: number;
  readonly y: number;
  readonly anchor: "start" | "middle" | "end";
  readonly rect: Rect;
  /** Read from the right, along a standing board. */
  readonly turned?: boolean;
  /** From the board to the name, where it stands off. */
  readonly lead?: readonly [Point, Point];
}

/** Where names may stand, px. */
export interface Room {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface Spot {
  readonly at: { x: number; y: number; anchor: "start" | "middle" | "end" };
  readonly rect: Rect;
}

export function spot(x: number, y: number, anchor: "start" | "middle" | "end", wide: number): Spot {
  const left = anchor === "start" ? x : anchor === "end" ? x - wide : x - wide / 2;
  return { at: { x, y, anchor }, rect: { left, right: left + wide, top: y - HIGH + 3, bottom: y + 4 } };
}

export function faults(rect: Rect, own: BoardShown | null, lines: readonly BoardLine[], used: readonly Rect[]): number {
  let count = 0;
  for (const other of used) if (overlaps(rect, other)) count += 10;
  for (const line of lines) {
    if (line.board !== own && crosses(rect, line)) count += 4;
  }
  return count;
}

/** Whether nothing is there: as `faults` of none, found sooner. */
export function free(rect: Rect, own: BoardShown | null, lines: readonly BoardLine[], used: readonly Rect[]): boolean {
  return !used.some((other) => overlaps(rect, other)) && !lines.some((line) => line.board !== own && crosses(rect, line));
}

export interface BoardLine {
  readonly board: BoardShown;
  readonly from: Point;
  readonly to: Point;
  readonly half: number;
}

/** A board's centre-line on the screen, and how far it is widened. */
export function lineOf(board: BoardShown, view: Viewport): BoardLine {
  return { board, from: toScreen(view, board.line[0]), to: toScreen(view, board.line[1]), half: (board.thickness * view.scale) / 2 + 1 };
}

function crosses(rect: Rect, { from, to, half }: BoardLine): boolean {
  if (Math.max(from[0], to[0]) < rect.left - half || Math.min(from[0], to[0]) > rect.right + half) return false;
  if (Math.max(from[1], to[1]) < rect.top - half || Math.min(from[1], to[1]) > rect.bottom + half) return false;
  return runsThrough(rect, from, to, half);
}

/** Whether a board's centre-line, widened by its thickness, runs through a rectangle of the screen. */
export function crossesBoard(rect: Rect, board: BoardShown, view: Viewport): boolean {
  return crosses(rect, lineOf(board, view));
}
