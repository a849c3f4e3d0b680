/** The blue figures along the chosen board: what they say and where they stand, so that names can give way to them. */
import { cards } from "../card/cards.svelte";
import { job } from "../core/job.svelte";
import { overlaps, runsThrough, type Rect } from "../core/rect";
import { length } from "../core/units";
import { toScreen, type Point, type Viewport } from "../core/viewport";
import { crossesBoard } from "./placing";
import type { Along, BoardShown, Card, Pair } from "../core/wire";

export const OFF = 34; // px from the board to its dimension line
const FIGURE = 8.4; // px of a figure at 14, 600
const HIGH = 15;
const ROWS = 6;

/** The foot first, from where its figures run. */
export function footAndHead(board: BoardShown): [Point, Point] {
  return [[...board.foot], [...board.head]];
}

/** Where on the centre-line a figure along the board is. */
function placeOf(board: BoardShown, run: Along): Point {
  const [[x0, y0], [x1, y1]] = footAndHead(board);
  const share = run.value / (Math.hypot(x1 - x0, y1 - y0) || 1);
  return [x0 + (x1 - x0) * share, y0 + (y1 - y0) * share];
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
  /** On the centre-line. */
  readonly at: Point;
  readonly words: string;
  readonly place: { x: number; y: number; anchor: "start" | "end" | "middle" };
  /** A thin line leads from its arrow to it, since it stands farther off. */
  readonly lead: readonly [Point, Point] | null;
  /** There is no room for it: it is counted. */
  readonly left: boolean;
}

const ASIDE = [-7, 12, -24, 29, -41, 46]; // px up or down of a figure beside a steep board, its usual place first
const ALONG = [0, 26, -26, 52, -52]; // px to the right or left of a figure over a level one
const NEAR_ROWS = 2; // rows that are nearer than the board's other side
const OTHER = 30; // px from the board to a figure on its other side

/**
 * All figures of a board. Each stands where nothing is, as near its arrow as can be: off names, marks and other figures,
 * and where no line runs through it.
 * @param used px that have something already
 * @param boards that a figure rather does not lie on
 */
export function saidAlong(board: BoardShown, view: Viewport, units: Parameters<typeof length>[1], used: readonly Rect[] = [], boards: readonly BoardShown[] = []): Said[] {
  const { along, aside } = ways(board, view);
  const steep = Math.abs(along[1]) > 0.5;
  const runs = board.along.filter((run, index) => run.value !== board.along[index - 1]?.value || index === 0); // two joints at one place are one figure
  const ats = runs.map((run) => placeOf(board, run));
  const words = runs.map((run) => length(run.value, units));
  const wides = words.map((one) => one.length * FIGURE);
  const out = steep ? Math.max(0, ...wides) + 10 : HIGH + 2;
  const off = (point: Point): Point => {
    const [x, y] = toScreen(view, point);
    return [x + aside[0] * OFF, y + aside[1] * OFF];
  };
  const ends: readonly [Point, Point] = [off(footAndHead(board)[0]), off(ats.at(-1) ?? footAndHead(board)[1])];
  const lines: (readonly [Point, Point])[] = [ends, ...ats.map((at): readonly [Point, Point] => [off(at), toScreen(view, at)])];
  const taken: Rect[] = [...used];
  const uprights = steep ? boards.filter((one) => one.name !== board.name && Math.abs(one.line[1][1] - one.line[0][1]) > Math.abs(one.line[1][0] - one.line[0][0])) : [];

  return runs.map((run, index): Said => {
    const at = ats[index] ?? footAndHead(board)[1];
    const [lineX, lineY] = off(at);
    const wide = wides[index] ?? 0;
    const own = toScreen(view, at);
    const offered = Array.from({ length: ROWS }, (_, row) => row).flatMap((row): Said["place"][] =>
      steep ? ASIDE.map((by) => ({ x: lineX - 8 - row * out, y: lineY + by, anchor: "end" })) : ALONG.map((by) => ({ x: lineX + by, y: lineY - 10 - row * out, anchor: "middle" })));
    const across = steep
      ? ASIDE.map((by): Said["place"] => ({ x: own[0] + OTHER, y: own[1] + by, anchor: "start" }))
      : [0, 1, 2].flatMap((row) => ALONG.map((by): Said["place"] => ({ x: own[0] + by, y: own[1] + OTHER + row * out, anchor: "middle" })));
    const [usual] = offered;
    const free = (place: Said["place"], strict: boolean, onWood: boolean): Said | null => {
      const rect = rectOf(wide, place);
      const lead: Said["lead"] = place === usual ? null : leadTo(place, across.includes(place) ? own : [lineX, lineY]);
      if (taken.some((one) => overlaps(one, rect) || (strict && lead !== null && runsThrough(one, ...lead)))) return null;
      if (lines.some((line) => runsThrough(rect, ...line))) return null;
      if (!onWood && uprights.some((one) => crossesBoard(rect, one, view))) return null;
      taken.push(rect);
      if (lead) lines.push(lead);
      return { run, at, words: words[index] ?? "", place, lead, left: false };
    };
    // At last it may lie on wood, and its thin line run under a name, which has a ground of its own.
    const near = [...offered.slice(0, NEAR_ROWS * (steep ? ASIDE : ALONG).length), ...across];
    const every = [...near, ...offered.filter((one) => !near.includes(one))];
    for (const [strict, onWood, places] of [[true, false, near], [true, true, every], [false, true, every]] as const) {
      for (const place of places) {
        const found = free(place, strict, onWood);
        if (found) return found;
      }
    }
    return { run, at, words: words[index] ?? "", place: usual ?? { x: lineX, y: lineY, anchor: "end" }, lead: null, left: true };
  });
}

function leadTo({ x, y, anchor }: Said["place"], from: Point): readonly [Point, Point] {
  return [from, anchor === "middle" ? [x, y > from[1] ? y - 14 : y + 4] : [anchor === "end" ? x + 3 : x - 3, y - 5]];
}

function rectOf(wide: number, { x, y, anchor }: Said["place"]): Rect {
  const right = anchor === "end" ? x : anchor === "start" ? x + wide : x + wide / 2;
  return { left: right - wide - 3, right: right + 3, top: y - 13, bottom: y + 6 };
}

/** The room that the figures take, px. */
export function figureRects(all: readonly Said[]): Rect[] {
  return all.filter((one) => !one.left).map(({ words, place }) => rectOf(words.length * FIGURE, place));
}

/** How far from its foot the rake's figure stands, px: the first at which nothing is there. */
const ARCS = [98, 72, 124, 150, 176, 50] as const;

const BEFORE = 7; // degrees that the arc of a rake begins before it, and goes on past it towards its figure
const PAST = 15;

export interface Rake {
  readonly arc: number;
  /** The ends of the arc, turning right about the foot. */
  readonly from: Point;
  readonly to: Point;
  readonly at: { x: number; y: number; anchor: "start" };
}

/** Where the rake from plumb is drawn, its figure right of the board and off all that is there. */
export function rakeAt(plumb: Point, along: Point, words: string, used: readonly Rect[]): Rake {
  const lean = (Math.atan2(along[0], -along[1]) * 180) / Math.PI;
  const found = ARCS.map((arc): Rake => {
    const on = (angle: number): Point => [plumb[0] + arc * Math.sin((angle * Math.PI) / 180), plumb[1] - arc * Math.cos((angle * Math.PI) / 180)];
    const to = on(Math.max(0, lean) + PAST);
    return { arc, from: on(Math.min(0, lean) - BEFORE), to, at: { x: to[0] + 7, y: to[1] + 7, anchor: "start" } };
  });
  const free = ({ at }: Rake): boolean => !used.some((one) => overlaps(one, rectOf(words.length * FIGURE, at)));
  return found.find(free) ?? found[0] ?? { arc: 98, from: plumb, to: plumb, at: { x: plumb[0], y: plumb[1], anchor: "start" } };
}

/** Where the count of what found no room stands, px: about the line's end, the first place at which nothing is. */
export function moreAt([x, y]: Point, words: string, used: readonly Rect[]): Said["place"] {
  const wide = words.length * FIGURE;
  const offered = [[0, -26], [0, -42], [0, 20], [wide + 14, -26], [wide + 14, 20], [0, -58], [-wide, -26]].map(([dx = 0, dy = 0]): Said["place"] => ({ x: x + dx, y: y + dy, anchor: "end" }));
  return offered.find((place) => !used.some((one) => overlaps(one, rectOf(wide, place)))) ?? { x, y: y - 26, anchor: "end" };
}
