/** Places that a new point may snap to besides those the server offers, what it came to, and what is sent of it. */
import { job } from "../core/job.svelte";
import { meantBy } from "../core/snap";
import type { Point } from "../core/viewport";
import type { Candidate, Doing, Gripped, Meant } from "../core/wire";

/** What a new point can do before the server has said what it snaps to. */
export const AT_REST: Gripped = { revision: 0, handles: [{ at: [0, 0], says: "the point" }], candidates: [], offers: [], along: null, step: 1, follow: [], bays: [] };

function place(snap: "x" | "y", at: number, says: string, guide: [number, number]): Candidate {
  return { handle: 0, guide: [guide], rank: 0, pivot: null, snap, at, says, place: "", axis: "" };
}

/** A corner that is drawn already is a place to be plumb or level with: so that a frame closes square. */
function corner([x, y]: Point, index: number): Candidate[] {
  return [place("x", x, `plumb with corner ${index + 1}`, [x, y]), place("y", y, `level with corner ${index + 1}`, [x, y])];
}

const floor = (): Candidate => place("y", 0, "on the floor", [job.state?.drawing.extent[0] ?? 0, 0]);

/** What the next point may snap to: corners that are set, the floor, what is drawn; angles about the last point. */
export function candidatesFor(gripped: Gripped, points: readonly Point[], frame: boolean, pulling: boolean): readonly Candidate[] {
  const last = points.at(-1);
  const about = (one: Candidate): Candidate => (one.snap === "angle" && last ? { ...one, pivot: [last[0], last[1]] } : one);
  const offered = gripped.candidates.filter(({ snap }) => !pulling || snap !== "angle").map(about); // a frame's corner opposite has no angle
  return [...(frame ? points.flatMap(corner) : []), floor(), ...offered];
}

/** What points came to, by where they are: kept while one thing is drawn. */
const snaps = new Map<string, readonly Candidate[]>();
const key = ([x, y]: Point): string => `${x} ${y}`;

/** Something else is drawn from now on. */
export function forget(): void {
  snaps.clear();
}

/** A point stands where it does because of these. */
export function noted(point: Point, because: readonly Candidate[]): Point {
  snaps.set(key(point), because);
  return point;
}

/** What is meant by the points that are put in, by their numbers; a corner plumb or level with another means what that does. */
function meantOf(points: readonly Point[]): Meant[] {
  const own = points.map((point, index) => meantBy(snaps.get(key(point)) ?? [], index));
  return points.flatMap((point, index) =>
    (["x", "y"] as const).flatMap((axis, at) => {
      const fellows = [index, ...points.keys()].filter((other) => points[other]?.[at] === point[at]);
      const meant = fellows.flatMap((other) => own[other] ?? []).find((one) => one.axis === axis);
      return meant ? [{ ...meant, handle: index }] : [];
    }),
  );
}

export function drawn(what: "board" | "frame", points: readonly Point[], closed: boolean, exact: boolean): Doing {
  return { do: "draw", what, points: points.map(([x, y]): [number, number] => [x, y]), closed, exact, meant: meantOf(points) };
}
