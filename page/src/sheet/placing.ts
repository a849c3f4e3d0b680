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
}

/** Where names may stand, px. */
export interface Room {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const ANYWHERE: Room = { left: -Infinity, right: Infinity, top: -Infinity, bottom: Infinity };
const TRIES = [0.86, 0.72, 0.6, 0.45, 0.32, 0.2, 0.5, 0.93];
const MOST_LETTERS = 24;
const HIGH = 15;
const LEVEL = 0.5; // of a board's length: what rises less lies level
export const LETTER = 6.6; // px of an average letter at 13.5

/**
 * Where each board's name stands: at its own end, else beside it, off other names, marks, figures and boards.
 * @param boards all that are drawn
 * @param named those that have a name, the one that may choose its place first
 * @param nameOf what is written there
 * @param taken px that have something already
 * @param strict where all is small a name that would run over a board is left out
 */
export function labels(
  boards: readonly BoardShown[], named: readonly BoardShown[], nameOf: (board: BoardShown) => string, view: Viewport, taken: readonly Rect[],
  room: Room = ANYWHERE, strict = false,
): Label[] {
  const used: Rect[] = [...taken];
  const placed: Label[] = [];
  const lines = boards.map((board) => lineOf(board, view)); // each is held against the places of every name
  for (const board of named) {
    const said = nameOf(board);
    const wide = said.length * LETTER;
    const spots = [...endsOf(board, view, wide), ...TRIES.flatMap((share) => spotsAt(board, view, share, wide))];
    const within = spots.filter(({ rect }) => rect.left >= room.left && rect.right <= room.right && rect.top >= room.top && rect.bottom <= room.bottom);
    let best: { spot: Spot; fault: number } | null = null;
    for (const spot of within) {
      const fault = faults(spot.rect, board, lines, used);
      if (best === null || fault < best.fault) best = { spot, fault };
      if (fault === 0) break;
    }
    if (best === null || best.fault >= (strict ? 4 : 10)) continue;
    used.push(best.spot.rect);
    placed.push({ name: board.name, said, ...best.spot.at, rect: best.spot.rect });
  }
  return placed;
}

export function shortened(name: string): string {
  return name.length <= MOST_LETTERS ? name : `${name.slice(0, MOST_LETTERS - 1).trimEnd()}…`;
}

export interface Spot {
  readonly at: { x: number; y: number; anchor: "start" | "middle" | "end" };
  readonly rect: Rect;
}

/** At its own end: of a standing board over its head, of a level one above its left end, beyond its right end, under its left. */
function endsOf(board: BoardShown, view: Viewport, wide: number): Spot[] {
  const [one, other] = [toScreen(view, board.line[0]), toScreen(view, board.line[1])];
  const half = (board.thickness * view.scale) / 2 + 6;
  if (Math.abs(other[1] - one[1]) / (Math.hypot(other[0] - one[0], other[1] - one[1]) || 1) >= LEVEL) {
    const [x, y] = one[1] < other[1] ? one : other;
    return [spot(x, y - 7, "middle", wide)];
  }
  const [[left, low], [right, high]] = one[0] < other[0] ? [one, other] : [other, one];
  return [spot(left + 2, low - half, "start", wide), spot(right + 8, high + 5, "start", wide), spot(left + 2, low + half + 10, "start", wide)];
}

function spotsAt(board: BoardShown, view: Viewport, share: number, wide: number): Spot[] {
  const [from, to] = [toScreen(view, board.line[0]), toScreen(view, board.line[1])];
  const x = from[0] + (to[0] - from[0]) * share;
  const y = from[1] + (to[1] - from[1]) * share;
  const half = (board.thickness * view.scale) / 2 + 6;
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const level = Math.abs(to[1] - from[1]) / long < LEVEL;
  if (level) return [spot(x, y - half, "middle", wide), spot(x, y + half + 10, "middle", wide)];
  const across = (half * long) / Math.max(1, Math.abs(to[1] - from[1]));
  return [spot(x + across + 2, y + 5, "start", wide), spot(x - across - 2, y + 5, "end", wide)];
}

function spot(x: number, y: number, anchor: "start" | "middle" | "end", wide: number): Spot {
  const left = anchor === "start" ? x : anchor === "end" ? x - wide : x - wide / 2;
  return { at: { x, y, anchor }, rect: { left, right: left + wide, top: y - HIGH + 3, bottom: y + 4 } };
}

function faults(rect: Rect, own: BoardShown | null, lines: readonly BoardLine[], used: readonly Rect[]): number {
  let count = 0;
  for (const other of used) if (overlaps(rect, other)) count += 10;
  for (const line of lines) {
    if (line.board !== own && crosses(rect, line)) count += 4;
  }
  return count;
}

interface BoardLine {
  readonly board: BoardShown;
  readonly from: Point;
  readonly to: Point;
  readonly half: number;
}

/** A board's centre-line on the screen, and how far it is widened. */
function lineOf(board: BoardShown, view: Viewport): BoardLine {
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
