/** Boards drawn bent: how far each place goes, and outlines with corners enough to show it. */
import type { Bend, Bent, Vec } from "./shown";
import type { Point } from "./viewport";

type Line = readonly [Point, Point];

/** How far a place `a` along the board goes, mm as drawn. */
export function bentBy(places: readonly Bent[], factor: number, a: number): Vec {
  const after = places.findIndex((one) => one.a > a);
  const [before, next] = [places[(after < 0 ? places.length : after) - 1], after < 0 ? undefined : places[after]];
  const [one, other] = [before ?? next, next ?? before];
  if (!one || !other) return [0, 0, 0];
  const share = other.a > one.a ? (a - one.a) / (other.a - one.a) : 0;
  const mix = (axis: 0 | 1 | 2): number => (one.by[axis] + (other.by[axis] - one.by[axis]) * share) * factor;
  return [mix(0), mix(1), mix(2)];
}

/** `a` of a place of the elevation: along the line a board is drawn by. */
export function alongLine([from, to]: Line, [x, y]: Point): number {
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  return ((x - from[0]) * (to[0] - from[0]) + (y - from[1]) * (to[1] - from[1])) / long;
}

/** A closed outline of the elevation as the board's bend has it, with a corner wherever the bend has one. */
export function bentLoop(loop: readonly Point[], line: Line, board: string, bend: Bend): readonly Point[] {
  const places = bend.of.get(board);
  if (!places) return loop;
  return loop.flatMap((from, index) => {
    const to = loop[(index + 1) % loop.length] ?? from;
    const [start, end] = [alongLine(line, from), alongLine(line, to)];
    const shares = places.map(({ a }) => (a - start) / (end - start)).filter((share) => share > 0 && share < 1);
    return [0, ...shares.sort((one, other) => one - other)].map((share): Point => {
      const [x, y] = [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share];
      const by = bentBy(places, bend.factor, start + (end - start) * share);
      return [x + by[0], y + by[1]];
    });
  });
}
