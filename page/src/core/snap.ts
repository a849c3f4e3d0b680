/** Snapping a move to the candidates that the server sent: which is nearest, within reach of the hand. */
import type { Candidate, Gripped, Handle, Meant } from "./wire";
import type { Point } from "./viewport";

export interface Snapped {
  readonly by: Point;
  readonly snaps: readonly Candidate[];
}

interface Tried {
  readonly candidate: Candidate;
  readonly by: Point;
  readonly off: number;
}

const SAME_OFF = 0.01; // mm: below this two candidates are equally near, and rank decides
const MICRON = 1000;

/**
 * @param by the move as the hand made it, mm.
 * @param reach how far a candidate may be from it, mm.
 * @param free leave snapping: only the rounding to the step is left.
 */
export function snapped(gripped: Gripped, by: Point, reach: number, free: boolean): Snapped {
  const wanted = gripped.along ? alongOnly(by, gripped.along) : by;
  const tried = free ? [] : gripped.candidates.flatMap((candidate) => tryOne(gripped, candidate, wanted, reach));
  if (gripped.along) return oneWay(gripped, gripped.along, wanted, tried);
  const onX = nearest(tried.filter((one) => one.candidate.snap === "x"));
  const onY = nearest(tried.filter((one) => one.candidate.snap === "y"));
  const turned = nearest(tried.filter((one) => one.candidate.snap === "line" || one.candidate.snap === "angle"));
  if (turned && !onX && !onY) return { by: micron(turned.by), snaps: [turned.candidate] };
  const moved: Point = [onX ? onX.by[0] : stepped(wanted[0], gripped.step), onY ? onY.by[1] : stepped(wanted[1], gripped.step)];
  return { by: micron(moved), snaps: [onX, onY].flatMap((one) => (one ? [one.candidate] : [])) };
}

/** Whether a move brings a snap about: a place where it stood already explains nothing, and is not what was meant. */
export function brought(snap: Candidate, [dx, dy]: Point): boolean {
  return snap.snap === "x" ? dx !== 0 : snap.snap === "y" ? dy !== 0 : true;
}

/** What the file is to say of a point that snapped, by the handle's number. */
export function meantBy(snaps: readonly Candidate[], handle?: number): Meant[] {
  return snaps.flatMap((one) => (one.axis === "" || one.place === "" ? [] : [{ handle: handle ?? one.handle, axis: one.axis, place: one.place }]));
}

/** Why it snaps, as it will be written: what only a figure stands for is said to be one. */
export function reason(snap: Candidate, relates: boolean): string {
  return relates && snap.place !== "" ? snap.says : `${snap.says}, as a figure`;
}

function oneWay(gripped: Gripped, along: Point, wanted: Point, tried: readonly Tried[]): Snapped {
  const best = nearest(tried);
  if (best) return { by: micron(best.by), snaps: [best.candidate] };
  const far = stepped(wanted[0] * along[0] + wanted[1] * along[1], gripped.step);
  return { by: micron([along[0] * far, along[1] * far]), snaps: [] };
}

function tryOne(gripped: Gripped, candidate: Candidate, by: Point, reach: number): Tried[] {
  const handle = gripped.handles[candidate.handle];
  if (handle === undefined) return [];
  const wanted: Point = [handle.at[0] + by[0], handle.at[1] + by[1]];
  const place = placeOn(candidate, wanted, gripped, handle);
  if (place === null) return [];
  const off = Math.hypot(place[0] - wanted[0], place[1] - wanted[1]);
  return off <= reach ? [{ candidate, by: [place[0] - handle.at[0], place[1] - handle.at[1]], off }] : [];
}

/** Where on a candidate a handle comes to; null where it cannot. */
function placeOn(candidate: Candidate, wanted: Point, gripped: Gripped, handle: Handle): Point | null {
  const along: Point | null = gripped.along;
  switch (candidate.snap) {
    case "x":
    case "y": {
      const axis = candidate.snap === "x" ? 0 : 1;
      if (along === null) return axis === 0 ? [candidate.at, wanted[1]] : [wanted[0], candidate.at];
      if (Math.abs(along[axis]) < 1e-6) return null;
      const far = (candidate.at - handle.at[axis]) / along[axis];
      return [handle.at[0] + along[0] * far, handle.at[1] + along[1] * far];
    }
    case "line": {
      const [from, to] = [candidate.guide[0], candidate.guide.at(-1)];
      return from && to && along === null ? foot(wanted, from, to) : null;
    }
    case "angle":
      return candidate.pivot && along === null ? turnedTo(wanted, candidate.pivot, candidate.at, gripped.step) : null;
  }
}

/** The foot of the perpendicular from a point on the line through two others. */
function foot(point: Point, from: Point, to: Point): Point | null {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const long = dx * dx + dy * dy;
  if (long < 1e-9) return null;
  const share = ((point[0] - from[0]) * dx + (point[1] - from[1]) * dy) / long;
  return [from[0] + share * dx, from[1] + share * dy];
}

/** The point as far from the pivot, to the hand's step, at the nearest multiple of `step` degrees. */
function turnedTo(point: Point, pivot: Point, step: number, longStep: number): Point {
  const [dx, dy] = [point[0] - pivot[0], point[1] - pivot[1]];
  const angle = (Math.round((Math.atan2(dy, dx) * 180) / Math.PI / step) * step * Math.PI) / 180;
  const far = stepped(Math.hypot(dx, dy), longStep);
  return [pivot[0] + far * Math.cos(angle), pivot[1] + far * Math.sin(angle)];
}

function nearest(tried: readonly Tried[]): Tried | undefined {
  return [...tried].sort((one, other) =>
    Math.abs(one.off - other.off) > SAME_OFF ? one.off - other.off : one.candidate.rank - other.candidate.rank,
  )[0];
}

function alongOnly(by: Point, along: Point): Point {
  const far = by[0] * along[0] + by[1] * along[1];
  return [along[0] * far, along[1] * far];
}

function stepped(value: number, step: number): number {
  return step > 0 ? Math.round(value / step) * step : value;
}

/** A hand knows no more than a thousandth; the server rounds what it writes. */
function micron([x, y]: Point): Point {
  return [Math.round(x * MICRON) / MICRON + 0, Math.round(y * MICRON) / MICRON + 0];
}
