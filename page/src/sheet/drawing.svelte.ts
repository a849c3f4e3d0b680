/** Drawing what is not there yet: a board by two points, a frame by its corners. */
import { doing } from "../core/change";
import { job } from "../core/job.svelte";
import { server } from "../core/network/client";
import { sight } from "../core/sight.svelte";
import { snapped, type Snapped } from "../core/snap";
import { typedPoint } from "../core/typed-move";
import type { Point } from "../core/viewport";
import type { Candidate, Gripped } from "../core/wire";

const REACH_PX = 8;
const LEAST = 5; // mm: shorter is a slip of the hand
const CLOSE_PX = 12;

/** A corner that is drawn already is a place to be plumb or level with: so that a frame closes square. */
function corner(x: number, y: number, index: number): Candidate[] {
  const at = { handle: 0, guide: [[x, y]] satisfies [number, number][], rank: 0, pivot: null };
  return [
    { ...at, snap: "x", at: x, says: `plumb with corner ${index + 1}` },
    { ...at, snap: "y", at: y, says: `level with corner ${index + 1}` },
  ];
}

class Drawing {
  points = $state.raw<readonly Point[]>([]);
  pointer = $state.raw<Point | null>(null);
  snap = $state.raw<Snapped | null>(null);
  /** A point that is being typed, "600, 0": across and up, in the units shown. */
  typed = $state("");
  box = $state.raw<readonly [Point, Point] | null>(null);
  #gripped: Gripped | null = null;

  async begin(tool: "board" | "frame"): Promise<void> {
    sight.tool = tool;
    sight.chooseNothing();
    this.points = [];
    this.typed = "";
    this.#gripped = await server.grip(job.revision, { what: "new" });
  }

  end(): void {
    sight.tool = "hand";
    this.points = [];
    this.pointer = null;
    this.snap = null;
    this.typed = "";
  }

  move(at: Point): void {
    this.pointer = this.#snapped(at);
  }

  /** By the keyboard: the pointer goes so far from where it is, or from `start`. */
  step([dx, dy]: Point, start: Point): void {
    const [x, y] = this.pointer ?? start;
    this.snap = null;
    this.pointer = [Math.round((x + dx) * 1e4) / 1e4, Math.round((y + dy) * 1e4) / 1e4]; // no more than the noise of adding up
  }

  type(letter: string): void {
    this.typed = letter === "Backspace" ? this.typed.slice(0, -1) : this.typed + letter;
  }

  /** By the keyboard: a corner where it was typed, or where the pointer is; false where there is neither. */
  put(): boolean {
    const point = this.typed === "" ? this.pointer : typedPoint(this.typed, sight.units);
    if (!point) return false;
    this.typed = "";
    this.pointer = point;
    const [first] = this.points;
    if (sight.tool === "board" && first !== undefined) {
      if (Math.hypot(point[0] - first[0], point[1] - first[1]) >= LEAST) void this.#draw("board", [first, point], false);
    } else this.#corner(point);
    return true;
  }

  press(at: Point): void {
    const point = this.#snapped(at);
    if (sight.tool === "board" && this.points.length > 0) return;
    this.#corner(point);
  }

  #corner(point: Point): void {
    const [first] = this.points;
    const closes = first !== undefined && this.points.length > 2 && Math.hypot(first[0] - point[0], first[1] - point[1]) < CLOSE_PX / sight.view.scale;
    if (closes) return void this.#draw("frame", this.points, true);
    this.points = [...this.points, point];
  }

  lift(at: Point): void {
    const [first] = this.points;
    if (sight.tool !== "board" || first === undefined) return;
    const point = this.#snapped(at);
    if (Math.hypot(point[0] - first[0], point[1] - first[1]) < LEAST) return;
    void this.#draw("board", [first, point], false);
  }

  /** End a frame that stays open. */
  finish(): void {
    if (sight.tool === "frame" && this.points.length > 2) void this.#draw("frame", this.points, false);
    else this.end();
  }

  async #draw(what: "board" | "frame", points: readonly Point[], closed: boolean): Promise<void> {
    const known = new Set(job.boardByName.keys());
    this.end();
    if (await doing({ do: "draw", what, points: points.map(([x, y]): [number, number] => [x, y]), closed })) {
      sight.boards = [...job.boardByName.keys()].filter((name) => !known.has(name));
    }
  }

  /** The new point's handle is its own place: candidates are met as if it had been moved there from the origin. */
  #snapped(at: Point): Point {
    const gripped = this.#gripped;
    if (gripped === null) return at;
    const [handle] = gripped.handles;
    const origin: Point = handle?.at ?? [0, 0];
    const whole = handle ? gripped : { ...gripped, handles: [{ at: [0, 0] satisfies [number, number], says: "" }] };
    const last = this.points.at(-1);
    const corners = this.points.flatMap(([x, y], index) => corner(x, y, index));
    const pivoted = { ...whole, candidates: corners.concat(whole.candidates.map((one) => (one.snap === "angle" && last ? { ...one, pivot: [last[0], last[1]] satisfies [number, number] } : one))) };
    this.snap = snapped(pivoted, [at[0] - origin[0], at[1] - origin[1]], REACH_PX / sight.view.scale, false);
    return [origin[0] + this.snap.by[0], origin[1] + this.snap.by[1]];
  }
}

export const drawing = new Drawing();
