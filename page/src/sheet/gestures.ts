/** What a pointer does on the drawing: chooses, drags, draws, pans, pinches. */
import { chosenBay } from "../core/bays.svelte";
import { drag } from "../core/drag.svelte";
import { job } from "../core/job.svelte";
import { lights } from "../core/lights.svelte";
import { sight, type Tool } from "../core/sight.svelte";
import { panned, toJob, zoomed, type Point } from "../core/viewport";
import type { Target } from "../core/wire";
import { drawing } from "./drawing.svelte";

const STARTS = 4; // px that a pointer must go before it drags
const TOUCH_STARTS = 12;
const OFF_FINGER: Point = [-42, -42]; // px: what a finger holds stands 60 off it, up to the left, where it can be seen
const WHEEL = 0.0015;
const DRAWN: ReadonlySet<Tool> = new Set<Tool>(["board", "frame", "row"]);

type Grasp =
  | { readonly kind: "pan"; last: Point; moved: boolean }
  | { readonly kind: "target"; readonly target: Target; readonly from: Point; begun: boolean }
  | { readonly kind: "box"; readonly from: Point }
  | { readonly kind: "draw"; readonly from: Point; moved: boolean }
  | { readonly kind: "nothing" };

/** Where what a pointer holds is: under it, or off the finger. */
function held(event: PointerEvent, [x, y]: Point): Point {
  return event.pointerType === "touch" ? [x + OFF_FINGER[0], y + OFF_FINGER[1]] : [x, y];
}

export class Gestures {
  #grasp: Grasp = { kind: "nothing" };
  readonly #fingers = new Map<number, Point>();

  constructor(private readonly place: (event: PointerEvent | WheelEvent) => Point) {}

  down(event: PointerEvent): void {
    if (event.target instanceof Element && event.target.closest("[role=button]")) return; // a figure to be typed in
    const at = this.place(event);
    this.#fingers.set(event.pointerId, at);
    if (event.currentTarget instanceof Element) event.currentTarget.setPointerCapture(event.pointerId);
    if (this.#fingers.size === 2) {
      drag.drop();
      this.#grasp = { kind: "nothing" };
      return;
    }
    this.#grasp = this.#grasped(event, at);
  }

  #grasped(event: PointerEvent, at: Point): Grasp {
    if (event.button === 1) return { kind: "pan", last: at, moved: false };
    if (event.button !== 0) return { kind: "nothing" };
    if (this.#draws()) {
      drawing.press(toJob(sight.view, at));
      return { kind: "draw", from: at, moved: false };
    }
    const hit = event.target instanceof Element ? event.target : null;
    const handle = hit?.closest<SVGElement>("[data-handle]");
    if (handle && lights.drawnOn) return { kind: "target", target: JSON.parse(handle.dataset["handle"] ?? "null"), from: at, begun: false };
    const joint = hit?.closest<SVGElement>("[data-joint]")?.dataset["joint"]?.split("\n");
    if (joint?.[0] !== undefined && joint[1] !== undefined) {
      sight.chooseJoint([joint[0], joint[1]]);
      return { kind: "nothing" };
    }
    const board = hit?.closest<SVGElement>("[data-board]")?.dataset["board"];
    if (board !== undefined) return this.#board(board, event.shiftKey, at);
    return event.shiftKey ? { kind: "box", from: at } : { kind: "pan", last: at, moved: false };
  }

  #board(name: string, more: boolean, at: Point): Grasp {
    if (more || !sight.boards.includes(name)) sight.choose(name, more);
    if (!lights.drawnOn) return { kind: "nothing" }; // a light with a foot of its own: nothing moves under the hand there
    const frame = job.boardByName.get(name)?.frame ?? "";
    const side = frame === "" ? undefined : job.shown?.frames.find((one) => one.name === frame)?.boards.indexOf(name);
    const target: Target =
      side !== undefined && side >= 0 && sight.boards.length === 1
        ? { what: "side", frame, side }
        : { what: "boards", boards: [...sight.boards] };
    return { kind: "target", target, from: at, begun: false };
  }

  move(event: PointerEvent): void {
    const at = this.place(event);
    if (this.#pinched(event.pointerId, at)) return;
    drag.free = event.altKey;
    const grasp = this.#grasp;
    switch (grasp.kind) {
      case "pan": {
        const [dx, dy] = [at[0] - grasp.last[0], at[1] - grasp.last[1]];
        if (!grasp.moved && Math.hypot(dx, dy) < STARTS) return;
        grasp.moved = true;
        grasp.last = at;
        sight.fits = false;
        sight.view = panned(sight.view, dx, dy);
        return;
      }
      case "target": {
        const [dx, dy] = [at[0] - grasp.from[0], at[1] - grasp.from[1]];
        if (!grasp.begun && Math.hypot(dx, dy) < STARTS) return;
        if (!grasp.begun) void drag.grip(grasp.target);
        grasp.begun = true;
        drag.move([dx / sight.view.scale, -dy / sight.view.scale]);
        return;
      }
      case "box":
        drawing.box = [grasp.from, at];
        return;
      case "draw":
        if (!grasp.moved && Math.hypot(at[0] - grasp.from[0], at[1] - grasp.from[1]) < (event.pointerType === "touch" ? TOUCH_STARTS : 0)) return;
        grasp.moved = true;
        drawing.finger = event.pointerType === "touch" ? at : null;
        drawing.move(toJob(sight.view, held(event, at)));
        return;
      case "nothing":
        this.#hover(event, at);
    }
  }

  #hover(event: PointerEvent, at: Point): void {
    if (DRAWN.has(sight.tool)) drawing.move(toJob(sight.view, at));
    const hit = event.target instanceof Element ? event.target.closest<SVGElement>("[data-board]") : null;
    sight.hovered = hit?.dataset["board"] ?? null;
  }

  #pinched(id: number, at: Point): boolean {
    const before = this.#fingers.get(id);
    if (before === undefined) return false;
    if (this.#fingers.size !== 2) {
      this.#fingers.set(id, at);
      return false;
    }
    const other = [...this.#fingers].find(([key]) => key !== id)?.[1] ?? at;
    const [was, is] = [Math.hypot(before[0] - other[0], before[1] - other[1]), Math.hypot(at[0] - other[0], at[1] - other[1])];
    const middle: Point = [(before[0] + other[0]) / 2, (before[1] + other[1]) / 2]; // what lies between the fingers stays there
    sight.fits = false;
    sight.view = panned(zoomed(sight.view, middle, is / Math.max(1, was)), (at[0] - before[0]) / 2, (at[1] - before[1]) / 2);
    this.#fingers.set(id, at);
    return true;
  }

  up(event: PointerEvent): void {
    this.#fingers.delete(event.pointerId);
    const grasp = this.#grasp;
    this.#grasp = { kind: "nothing" };
    if (grasp.kind === "target" && grasp.begun) void drag.release();
    else if (grasp.kind === "pan" && !grasp.moved) {
      const more = event.pointerType === "touch" && sight.bay !== null; // a finger has no Shift
      if (!more) sight.chooseNothing();
      this.#bay(event, more);
    } else if (grasp.kind === "box") {
      if (this.#boxed() < STARTS) this.#bay(event, true);
    }
    else if (grasp.kind === "draw") {
      const at = this.place(event);
      drawing.finger = null;
      drawing.lift(toJob(sight.view, grasp.moved ? held(event, at) : at));
    }
  }

  #bay(event: PointerEvent, more: boolean): void {
    if (sight.tool === "hand" && lights.now?.Foot === undefined) void chosenBay.press(toJob(sight.view, this.place(event)), more);
  }

  left(): void {
    sight.hovered = null;
    if (DRAWN.has(sight.tool)) drawing.gone();
  }

  /** Whether a press draws: with a word chosen, and straight onto an empty sheet. */
  #draws(): boolean {
    if (job.state?.drawing.boards.length === 0 && (sight.tool === "hand" || sight.tool === "wall")) void drawing.begin("board");
    return DRAWN.has(sight.tool);
  }

  cancel(event: PointerEvent): void {
    this.#fingers.delete(event.pointerId);
    this.#grasp = { kind: "nothing" };
    drag.drop();
  }

  wheel(event: WheelEvent): void {
    event.preventDefault();
    sight.fits = false;
    sight.view = event.shiftKey
      ? panned(sight.view, -event.deltaX - event.deltaY, 0)
      : zoomed(sight.view, this.place(event), Math.exp(-event.deltaY * WHEEL));
  }

  /** Chooses what lies in the box, and gives how large it is in px; one that is no larger than a press chooses nothing. */
  #boxed(): number {
    const box = drawing.box;
    drawing.box = null;
    const far = box ? Math.hypot(box[1][0] - box[0][0], box[1][1] - box[0][1]) : 0;
    if (!box || far < STARTS) return far;
    const [one, other] = [toJob(sight.view, box[0]), toJob(sight.view, box[1])];
    const [left, right] = [Math.min(one[0], other[0]), Math.max(one[0], other[0])];
    const [low, high] = [Math.min(one[1], other[1]), Math.max(one[1], other[1])];
    sight.joint = null;
    sight.frame = null;
    sight.boards = (job.shown?.drawing.boards ?? [])
      .filter((board) => board.outline.every(([x, y]) => x >= left && x <= right && y >= low && y <= high))
      .map((board) => board.name);
    return far;
  }
}
