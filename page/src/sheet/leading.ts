/** Names that have no room at their boards, led out by a thin line to the nearest place where nothing is. */
import type { Rect } from "../core/rect";
import { toScreen, type Point, type Viewport } from "../core/viewport";
import type { BoardShown } from "../core/wire";
import { HIGH, LETTER, spot, type BoardLine, type Label, type Room, type Spot } from "./placing";

const CELL = 4; // px: what is taken is known to that
const APART = 3; // px about a name
const MOST = 40; // names that are led out: more would be a thicket of lines, and are counted
const NEAREST = 22; // px of a line: a shorter one is not seen
const LEAST_STEP = 10; // px from one length that is tried to the next
const FARTHER = 0.1; // of the last length, at least
const FARTHEST = 320; // px
const WAYS = 20; // directions that are tried
const SHARES = [0.5, 0.3, 0.7, 0.12, 0.88]; // of a board's length: where its line begins
const THIN = 7; // px: of a dimension's line; a name's line may cross it
const GAP = 3; // px from a line's end to its name
const MIDDLE = 4.5; // px from the middle of a line of words to its foot
const STEEP = 0.5; // of a line's length, up or down
const ALONG = 20; // degrees: a line within this of its board's own direction seems to be a part of it


/** Cells of the sheet that have something. */
class Taken {
  readonly #cells: Uint8Array;
  readonly #wide: number;
  readonly #high: number;

  /** @param room px that can be taken: what is beyond is not asked for */
  constructor(private readonly room: Room) {
    this.#wide = Math.ceil((room.right - room.left) / CELL) + 1;
    this.#high = Math.ceil((room.bottom - room.top) / CELL) + 1;
    this.#cells = new Uint8Array(this.#wide * this.#high);
  }

  #span({ left, right, top, bottom }: Rect): [number, number, number, number] {
    const across = (x: number): number => Math.floor((x - this.room.left) / CELL);
    const down = (y: number): number => Math.floor((y - this.room.top) / CELL);
    return [Math.max(0, across(left)), Math.min(this.#wide - 1, across(right)), Math.max(0, down(top)), Math.min(this.#high - 1, down(bottom))];
  }

  rect(rect: Rect, grow = 0): void {
    const [left, right, top, bottom] = this.#span({ left: rect.left - grow, right: rect.right + grow, top: rect.top - grow, bottom: rect.bottom + grow });
    for (let row = top; row <= bottom; row += 1) if (right >= left) this.#cells.fill(1, row * this.#wide + left, row * this.#wide + right + 1);
  }

  line(from: Point, to: Point, half = 0): void {
    for (const [x, y] of steps(from, to)) this.rect({ left: x, right: x, top: y, bottom: y }, half);
  }

  hits({ left, right, top, bottom }: Rect): boolean {
    const [from, to] = [Math.max(0, Math.floor((left - this.room.left) / CELL)), Math.min(this.#wide - 1, Math.floor((right - this.room.left) / CELL))];
    const last = Math.min(this.#high - 1, Math.floor((bottom - this.room.top) / CELL));
    for (let row = Math.max(0, Math.floor((top - this.room.top) / CELL)); row <= last; row += 1) {
      const end = row * this.#wide + to;
      for (let at = row * this.#wide + from; at <= end; at += 1) if (this.#cells[at] === 1) return true;
    }
    return false;
  }

  hit([x0, y0]: Point, [x1, y1]: Point): boolean {
    const count = Math.max(1, Math.ceil(Math.hypot(x1 - x0, y1 - y0) / CELL));
    for (let step = 0; step <= count; step += 1) {
      const across = Math.floor((x0 + ((x1 - x0) * step) / count - this.room.left) / CELL);
      const down = Math.floor((y0 + ((y1 - y0) * step) / count - this.room.top) / CELL);
      if (across >= 0 && across < this.#wide && down >= 0 && down < this.#high && this.#cells[down * this.#wide + across] === 1) return true;
    }
    return false;
  }
}

function steps(from: Point, to: Point): Point[] {
  const count = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / CELL));
  return Array.from({ length: count + 1 }, (_, index): Point => [from[0] + ((to[0] - from[0]) * index) / count, from[1] + ((to[1] - from[1]) * index) / count]);
}

/**
 * The names that found a place, by their boards: the shortest lines first, so that few are in another's way.
 * @param lines of all boards, in px
 * @param used px that have words, marks or figures
 */
export function ledOut(boards: readonly BoardShown[], lines: readonly BoardLine[], nameOf: (board: BoardShown) => string, view: Viewport, used: readonly Rect[], room: Room): Map<string, Label> {
  const found = new Map<string, Label>();
  if (boards.length === 0 || room.right <= room.left) return found;
  const here = within(room, lines);
  const [words, all] = [new Taken(here), new Taken(here)];
  for (const rect of used) {
    if (Math.min(rect.right - rect.left, rect.bottom - rect.top) > THIN) words.rect(rect);
    all.rect(rect, APART);
  }
  for (const { from, to, half } of lines) all.line(from, to, half);
  let rest = boards.slice(0, MOST).map((board) => startsOf(board, nameOf(board), view));
  for (let far = NEAREST; far < FARTHEST && rest.length > 0; far += Math.max(LEAST_STEP, far * FARTHER)) {
    rest = rest.filter((starts) => {
      const label = placeAt(starts, far, words, all, here);
      if (!label?.lead) return true;
      found.set(label.name, label);
      words.rect(label.rect);
      words.line(...label.lead, CELL / 2); // the next crosses neither
      all.rect(label.rect, APART);
      all.line(...label.lead, APART);
      return false;
    });
  }
  return found;
}

/** The room as far as names may be led from what is drawn. */
function within(room: Room, lines: readonly BoardLine[]): Room {
  const [xs, ys] = [lines.flatMap(({ from, to }) => [from[0], to[0]]), lines.flatMap(({ from, to }) => [from[1], to[1]])];
  return {
    left: Math.max(room.left, Math.min(...xs) - FARTHEST), right: Math.min(room.right, Math.max(...xs) + FARTHEST),
    top: Math.max(room.top, Math.min(...ys) - FARTHEST), bottom: Math.min(room.bottom, Math.max(...ys) + FARTHEST),
  };
}

/** A name at a line's end: right or left of it; where the line is steep, over or under it as well. */
function besideEnd([x, y]: Point, way: number, wide: number): Spot[] {
  const [dx, dy] = [Math.cos(way), Math.sin(way)];
  const sided = dx >= 0 ? spot(x + GAP, y + MIDDLE, "start", wide) : spot(x - GAP, y + MIDDLE, "end", wide);
  return Math.abs(dy) < STEEP ? [sided] : [spot(x, dy > 0 ? y + GAP + HIGH - MIDDLE : y - GAP - MIDDLE / 2, "middle", wide), sided];
}

interface Starts {
  readonly name: string;
  readonly said: string;
  readonly at: readonly Point[];
  readonly half: number;
  /** In the order in which they are tried, radians from right towards down. */
  readonly ways: readonly number[];
}

function startsOf(board: BoardShown, said: string, view: Viewport): Starts {
  const [from, to] = [toScreen(view, board.line[0]), toScreen(view, board.line[1])];
  const own = Math.atan2(to[1] - from[1], to[0] - from[0]);
  const ways = Array.from({ length: WAYS }, (_, index) => ((index % 2 === 0 ? -1 : 1) * Math.ceil(index / 2) * 2 * Math.PI) / WAYS - Math.PI / 4); // up and to the right first
  return {
    name: board.name, said, half: (board.thickness * view.scale) / 2,
    at: SHARES.map((share): Point => [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share]),
    ways: ways.filter((way) => Math.abs(Math.sin(way - own)) > Math.sin((ALONG * Math.PI) / 180)),
  };
}

/** A name led out by a line of such a length; null where there is no room for it. */
function placeAt({ name, said, at: starts, half, ways }: Starts, far: number, words: Taken, all: Taken, room: Room): Label | null {
  const wide = said.length * LETTER;
  for (const start of starts) {
    for (const way of ways) {
      const end: Point = [start[0] + Math.cos(way) * (half + far), start[1] + Math.sin(way) * (half + far)];
      for (const { at, rect } of besideEnd(end, way, wide)) {
        if (rect.left < room.left || rect.right > room.right || rect.top < room.top || rect.bottom > room.bottom) continue;
        if (!all.hits(rect) && !words.hit(start, end)) return { name, said, ...at, rect, lead: [start, end] };
      }
    }
  }
  return null;
}
