/** Where what is drawn begins and ends, from what was typed of it and where the hand is. A typed figure holds; the hand gives the rest. */
import type { Point } from "../core/viewport";

export type EndKey = "ex" | "ey" | "lean" | "long";
export type Figures = Readonly<Partial<Record<EndKey | "x" | "y" | "wide" | "high", number>>>;

const MICRON = 1000;
const LEVEL = 1e-9;
const radians = (degrees: number): number => (degrees * Math.PI) / 180;
const micron = ([x, y]: Point): Point => [Math.round(x * MICRON) / MICRON + 0, Math.round(y * MICRON) / MICRON + 0];

export function startOf({ x, y }: Figures, hand: Point | null): Point | null {
  const [across, up] = [x ?? hand?.[0], y ?? hand?.[1]];
  return across === undefined || up === undefined ? null : [across, up];
}

/**
 * The far end of a board; null where too little is known.
 * @param latest of its figures, in the order in which they were typed: two place an end, so the last two hold.
 */
export function endOf(all: Figures, latest: readonly EndKey[], start: Point, hand: Point | null): Point | null {
  const held = new Set(latest.filter((key) => all[key] !== undefined).slice(-2));
  const of = (key: EndKey): number | undefined => (held.has(key) ? all[key] : undefined);
  const [ex, ey, lean, long] = [of("ex"), of("ey"), of("lean"), of("long")];
  const end = lean !== undefined ? leaning(lean, { ex, ey, long }, start, hand) : placed({ ex, ey, long }, start, hand);
  return end && micron(end);
}

interface Rest {
  readonly ex: number | undefined;
  readonly ey: number | undefined;
  readonly long: number | undefined;
}

/** On a line so many degrees right of plumb. */
function leaning(lean: number, { ex, ey, long }: Rest, [x, y]: Point, hand: Point | null): Point | null {
  const [across, up] = [Math.sin(radians(lean)), Math.cos(radians(lean))];
  const far =
    long ??
    (ey !== undefined ? divided(ey - y, up) : ex !== undefined ? divided(ex - x, across) : hand && (hand[0] - x) * across + (hand[1] - y) * up);
  return far == null ? null : [x + far * across, y + far * up];
}

const divided = (way: number, by: number): number | null => (Math.abs(by) < LEVEL ? null : way / by);

function placed({ ex, ey, long }: Rest, [x, y]: Point, hand: Point | null): Point | null {
  if (long !== undefined) {
    if (ex !== undefined) return away(long, ex - x, (across, up) => [x + across, y + up], (hand?.[1] ?? y) < y);
    if (ey !== undefined) return away(long, ey - y, (up, across) => [x + across, y + up], (hand?.[0] ?? x) < x);
    const [dx, dy] = hand ? [hand[0] - x, hand[1] - y] : [0, 0];
    const far = Math.hypot(dx, dy);
    return far < LEVEL ? null : [x + (dx / far) * long, y + (dy / far) * long];
  }
  if (ex !== undefined || ey !== undefined) return [ex ?? hand?.[0] ?? x, ey ?? hand?.[1] ?? y]; // without a hand: level, or plumb
  return hand;
}

/** So far in all and so far along one axis: how far along the other, and which way. */
function away(long: number, one: number, at: (one: number, other: number) => Point, back: boolean): Point | null {
  const rest = long * long - one * one;
  return rest < 0 ? null : at(one, Math.sqrt(rest) * (back ? -1 : 1));
}

/** The corner of a frame opposite to its first; null where its size is not known. */
export function oppositeOf({ wide, high }: Figures, [x, y]: Point, hand: Point | null): Point | null {
  const across = wide === undefined ? hand?.[0] : x + ((hand?.[0] ?? x) < x ? -wide : wide);
  const up = high === undefined ? hand?.[1] : y + ((hand?.[1] ?? y) < y ? -high : high);
  return across === undefined || up === undefined || across === x || up === y ? null : micron([across, up]);
}

export function rectangle([x0, y0]: Point, [x1, y1]: Point): readonly Point[] {
  const [left, right, low, high] = [Math.min(x0, x1), Math.max(x0, x1), Math.min(y0, y1), Math.max(y0, y1)];
  return [[left, low], [right, low], [right, high], [left, high]];
}

export const far = (one: Point, other: Point): number => Math.hypot(one[0] - other[0], one[1] - other[1]);
