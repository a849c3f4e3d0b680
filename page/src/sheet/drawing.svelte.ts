/** Drawing what is not there yet: a board by its ends, a frame by its corners, a row in a bay; by hand, by figures, or both. */
import { changed, doing } from "../core/change";
import { job } from "../core/job.svelte";
import { latest } from "../core/latest";
import { Refused, server } from "../core/network/client";
import { sight } from "../core/sight.svelte";
import { snapped, type Snapped } from "../core/snap";
import type { Point } from "../core/viewport";
import type { Doing, Gripped } from "../core/wire";
import { endOf, far, oppositeOf, rectangle, startOf, type EndKey } from "./ends";
import { AT_REST, candidatesFor, drawn, forget, noted } from "./places";
import { row } from "./row.svelte";
import { WANTED } from "./sentences";
import { typed } from "./typed.svelte";

type What = "board" | "frame" | "row";

const REACH_PX = 8;
const LEAST = 5; // mm: shorter is a slip of the hand
const NEAR_PX = 12; // a press so near its first corner closes a frame; one that goes further pulls it open
const ENDS: readonly EndKey[] = ["ex", "ey", "lean", "long"];

class Drawing {
  /** Ends and corners that are set. */
  points = $state.raw<readonly Point[]>([]);
  pointer = $state.raw<Point | null>(null);
  snap = $state.raw<Snapped | null>(null);
  /** What is wanted before it can be put in; "" where nothing was asked for. */
  says = $state("");
  /** px: the finger, while the end that it holds stands off it. */
  finger = $state.raw<Point | null>(null);
  box = $state.raw<readonly [Point, Point] | null>(null);
  /** A frame is being pulled open from its first corner. */
  pulling = $state(false);
  /** Something of it was typed or snapped to a place: it is written as exactly as it can be held. */
  #exact = $state(false);
  #held: Point | null = null;
  #sending = false;
  #asked: Promise<unknown> = Promise.resolve();
  #gripped: Gripped = AT_REST;

  /** Where a board or a frame starts, as far as it is known. */
  readonly start: Point | null = $derived(startOf(typed.figures, this.points[0] ?? this.pointer));
  readonly #starts: boolean = $derived(this.points.length > 0 || (typed.figures.x !== undefined && typed.figures.y !== undefined));
  /** A board's far end; of a frame that is pulled or typed the corner opposite. */
  readonly tip: Point | null = $derived.by(() => {
    const [from, hand] = [this.start, this.#starts ? this.pointer : null];
    if (!from) return null;
    if (sight.tool === "board") return endOf(typed.figures, typed.order.flatMap((field) => ENDS.filter((end) => end === field)), from, hand);
    if (sight.tool !== "frame" || this.points.length > 1) return null;
    const { wide, high } = typed.figures;
    return this.pulling ? oppositeOf(typed.figures, from, hand) : wide !== undefined && high !== undefined ? oppositeOf(typed.figures, from, null) : null;
  });
  /** What would be put in now; null while it is not whole. */
  readonly whole: Doing | null = $derived.by(() => {
    const [from, to] = [this.start, this.tip];
    if (sight.tool === "row") return row.whole;
    if (!from || !to || Math.hypot(to[0] - from[0], to[1] - from[1]) < LEAST) return null;
    const points = sight.tool === "frame" ? rectangle(from, to) : [from, to];
    return sight.tool === "frame" || sight.tool === "board" ? drawn(sight.tool, points, sight.tool === "frame", this.#exact || Object.keys(typed.figures).length > 0) : null;
  });

  readonly #ask = latest(
    async (what: Doing) => {
      await changed();
      const asked = this.#sending ? null : server.preview(job.revision, what);
      this.#asked = Promise.resolve(asked);
      return asked;
    },
    (told) => {
      if (this.whole !== null && told) job.preview = told;
    },
    (error) => {
      if (!(error instanceof Refused)) throw error;
      job.preview = null; // it cannot be put in so: said once it is asked for
    },
  );

  async begin(what: What, from: Point | null = null): Promise<void> {
    if (sight.tool === what) return; // it is open: what is typed and set of it stays
    this.end();
    sight.lifted = false;
    sight.tool = what;
    sight.chooseNothing();
    await changed();
    try {
      const gripped = await server.grip(job.revision, { what: "new" });
      if (sight.tool !== what) return;
      this.#gripped = gripped;
      row.begin(gripped.bays, from);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      job.trouble = error.fault; // nothing snaps then; it can be drawn all the same
    }
    this.settle();
  }

  /** Leave what is half drawn. */
  end(): void {
    sight.tool = "hand";
    typed.begin();
    forget();
    this.points = [];
    this.pointer = null;
    this.snap = null;
    this.says = "";
    row.begin([]);
    this.finger = null;
    this.pulling = false;
    this.#exact = false;
    this.#held = null;
    this.#gripped = AT_REST;
    job.preview = null;
  }

  /** What is typed or pointed at has changed: show what would come of it. */
  settle(): void {
    this.says = "";
    if (this.whole) this.#ask(this.whole);
    else if (job.preview) job.preview = null;
  }

  // --- by hand

  move(at: Point): void {
    this.pointer = this.#snapped(at);
    const from = this.#held;
    if (sight.tool === "frame" && this.points.length === 1 && from && far(from, at) > NEAR_PX / sight.view.scale) this.pulling = true;
    this.settle();
  }

  /** The hand has left the sheet: it says no more where anything is. */
  gone(): void {
    if (this.#held) return;
    this.pointer = null;
    this.snap = null;
    this.settle();
  }

  press(at: Point): void {
    if (sight.tool === "row") {
      if (row.choose(at)) this.settle();
      else this.says = WANTED.inside;
      return;
    }
    this.#held = at;
    this.pointer = this.#snapped(at);
    if (sight.tool === "frame") this.#corner(this.pointer);
    else if (this.points.length === 0 && this.start) this.points = [this.start];
    this.settle();
  }

  lift(at: Point): void {
    if (this.#held === null) return;
    this.#held = null;
    this.pointer = this.#snapped(at);
    if (sight.tool === "board" || this.pulling) void this.#put();
    this.pulling = false;
  }

  #corner(point: Point): void {
    const [first] = this.points;
    if (first !== undefined && this.points.length > 2 && far(first, point) < NEAR_PX / sight.view.scale) return void this.#put(drawn("frame", this.points, true, this.#exact));
    this.points = [...this.points, point];
  }

  // --- by keys and figures

  /** The pointer goes so far from where it is, or from `start`; of a row the next bay is gone to. */
  step([dx, dy]: Point, start: Point): void {
    if (sight.tool === "row") row.walk(dx + dy > 0 ? 1 : -1);
    else {
      const [x, y] = this.pointer ?? this.points.at(-1) ?? start;
      this.snap = null;
      this.pointer = [Math.round((x + dx) * 1e4) / 1e4, Math.round((y + dy) * 1e4) / 1e4]; // no more than the noise of adding up
    }
    this.settle();
  }

  /** The last corner that was set is not. */
  back(): void {
    this.points = this.points.slice(0, -1);
    this.settle();
  }

  /** A corner where the pointer is. */
  set(): void {
    if (sight.tool === "frame" && this.pointer) this.#corner(this.pointer);
    else this.put();
  }

  /** Put it in where it is whole; else set what is known of it, and say what is wanted. Nothing that is set is lost. */
  put(): void {
    if (this.whole) return void this.#put();
    if (sight.tool === "row") this.says = row.bays.length === 0 ? WANTED.bay : WANTED.count;
    else if (sight.tool === "board") this.#boardOn();
    else if (sight.tool === "frame") this.#frameOn();
  }

  #boardOn(): void {
    if (this.points.length === 0 && this.start) this.points = [this.start];
    this.says = this.points.length > 0 ? WANTED.end : WANTED.start;
  }

  #frameOn(): void {
    const { x, y } = typed.figures;
    if (x !== undefined && y !== undefined) {
      typed.clear("x", "y");
      this.#exact = true;
      this.pointer = [x, y];
      this.#corner([x, y]);
      this.says = WANTED.corner;
    } else if (this.points.length > 2) void this.#put(drawn("frame", this.points, false, this.#exact));
    else this.says = this.points.length === 0 ? WANTED.first : WANTED.three;
  }

  async #put(what: Doing | null = this.whole): Promise<void> {
    if (this.#sending || what === null) return;
    this.#sending = true;
    const known = new Set((job.state?.drawing.boards ?? []).map((board) => board.name));
    const tool = sight.tool;
    await this.#asked.catch(() => undefined); // what is asked of the job as it was is answered first
    const saved = await doing(what); // what is refused is left as it was typed
    this.#sending = false;
    if (!saved || sight.tool !== tool) return;
    this.end();
    sight.boards = (job.state?.drawing.boards ?? []).map((board) => board.name).filter((name) => !known.has(name));
    document.getElementById("drawing")?.focus({ preventScroll: true });
  }

  /** The new point's handle is its own place: candidates are met as if it had been moved there from the origin. */
  #snapped(at: Point): Point {
    const candidates = candidatesFor(this.#gripped, this.points, sight.tool === "frame", this.pulling);
    this.snap = snapped({ ...this.#gripped, candidates: [...candidates] }, at, REACH_PX / sight.view.scale, false);
    if (this.snap.snaps.some(({ snap }) => snap === "x" || snap === "y")) this.#exact = true;
    return noted(this.snap.by, this.snap.snaps);
  }
}

export const drawing = new Drawing();
