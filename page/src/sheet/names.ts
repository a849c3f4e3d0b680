/** Where the boards' names stand: at their ends, beside or along them, or led out to where nothing is. */
import { runsThrough, type Rect } from "../core/rect";
import { toScreen, type Viewport } from "../core/viewport";
import type { BoardShown } from "../core/wire";
import { ledOut } from "./leading";
import { faults, free, HIGH, LETTER, lineOf, spot, type Label, type Room, type Spot } from "./placing";

const ANYWHERE: Room = { left: -Infinity, right: Infinity, top: -Infinity, bottom: Infinity };
const TRIES = [0.86, 0.72, 0.6, 0.45, 0.32, 0.2, 0.5, 0.93];
const MOST_LETTERS = 24;
const STANDS = 0.1; // of its rise: what leans more has no name along it
const LEVEL = 0.5; // of a board's length: what rises less lies level

/**
 * Where each board's name stands: at its own end, else beside it, off other names, marks, figures and boards; else turned
 * along it, else led out to where nothing is; at last over a board.
 * @param boards all that are drawn
 * @param named those that have a name, the one that may choose its place first
 * @param nameOf what is written there
 * @param taken px that have something already
 * @param around where names may be led to
 * @param strict where all is small a name that would run over a board is left out
 */
export function labels(
  boards: readonly BoardShown[], named: readonly BoardShown[], nameOf: (board: BoardShown) => string, view: Viewport, taken: readonly Rect[],
  room: Room = ANYWHERE, strict = false, around = room,
): Label[] {
  const used: Rect[] = [...taken];
  const placed: Label[] = [];
  const lines = boards.map((board) => lineOf(board, view)); // each is held against the places of every name
  const fits = ({ rect }: Spot): boolean => rect.left >= room.left && rect.right <= room.right && rect.top >= room.top && rect.bottom <= room.bottom;
  const put = (board: BoardShown, { at, rect }: Spot, turned = false): void => {
    used.push(rect);
    placed.push({ name: board.name, said: nameOf(board), ...at, rect, turned });
  };
  const usual = (board: BoardShown): Spot[] => {
    const wide = nameOf(board).length * LETTER;
    return [...endsOf(board, view, wide), ...TRIES.flatMap((share) => spotsAt(board, view, share, wide))].filter(fits);
  };
  const rest = named.filter((board) => {
    const found = usual(board).find(({ rect }) => free(rect, board, lines, used));
    if (found) put(board, found);
    return !found;
  });
  const off = rest.filter((board) => {
    const found = turnedAt(board, view, nameOf(board).length * LETTER).filter(fits).find(({ rect }) => free(rect, null, lines, used));
    if (found) put(board, found, true);
    return !found;
  });
  const led = ledOut(off, lines, nameOf, view, used, around);
  placed.push(...led.values());
  used.push(...[...led.values()].map(({ rect }) => rect));
  for (const board of off) {
    if (led.has(board.name)) continue;
    const crossed = ({ rect }: Spot): boolean => [...led.values()].some(({ lead }) => lead && runsThrough(rect, ...lead));
    const spots = usual(board).filter((spot) => !crossed(spot)).map((spot) => ({ spot, fault: faults(spot.rect, board, lines, used) }));
    const best = spots.reduce<(typeof spots)[number] | null>((least, next) => (least === null || next.fault < least.fault ? next : least), null);
    if (best !== null && best.fault < (strict ? 4 : 10)) put(board, best.spot);
  }
  return placed;
}

export function shortened(name: string): string {
  return name.length <= MOST_LETTERS ? name : `${name.slice(0, MOST_LETTERS - 1).trimEnd()}…`;
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

/** Along a standing board, read from the right: right of it, else left. */
function turnedAt(board: BoardShown, view: Viewport, wide: number): Spot[] {
  const [from, to] = [toScreen(view, board.line[0]), toScreen(view, board.line[1])];
  if (Math.abs(to[0] - from[0]) > STANDS * Math.abs(to[1] - from[1])) return [];
  const half = (board.thickness * view.scale) / 2 + 3;
  return TRIES.flatMap((share) => {
    const [x, y] = [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share];
    return [x + half + HIGH - 4, x - half - 4].map((at): Spot => ({ at: { x: at, y, anchor: "middle" }, rect: { left: at - HIGH + 4, right: at + 4, top: y - wide / 2, bottom: y + wide / 2 } }));
  });
}
