/** A hand on the model: a drag turns it, with Shift it moves it; a press picks a part, a cut, or a face to measure from. */
import { sight } from "../core/sight.svelte";
import { lifting } from "./lifting.svelte";
import type { Hit } from "./scene";

const TURN = 0.4; // degrees a px
const STARTS = 4;
const WHEEL = 0.0015;
const STEP = 5; // degrees a press of an arrow

interface Turned {
  hit(x: number, y: number): Hit | null;
  turnBy(yaw: number, pitch: number): void;
  moveBy(dx: number, dy: number): void;
  growBy(by: number): void;
}

export class Turning {
  #last: readonly [number, number] | null = null;
  #moved = false;

  constructor(private readonly stage: Turned) {}

  down(event: PointerEvent): void {
    if (event.currentTarget instanceof Element) event.currentTarget.setPointerCapture(event.pointerId);
    this.#last = [event.clientX, event.clientY];
    this.#moved = false;
  }

  move(event: PointerEvent): void {
    if (this.#last === null) {
      lifting.over = this.stage.hit(...place(event));
      return;
    }
    const [dx, dy] = [event.clientX - this.#last[0], event.clientY - this.#last[1]];
    if (!this.#moved && Math.hypot(dx, dy) < STARTS) return;
    this.#moved = true;
    this.#last = [event.clientX, event.clientY];
    if (event.shiftKey || event.buttons === 4) this.stage.moveBy(dx, dy);
    else this.stage.turnBy(-dx * TURN, dy * TURN);
  }

  up(event: PointerEvent): void {
    if (this.#last !== null && !this.#moved) this.#press(this.stage.hit(...place(event)), event.shiftKey);
    this.#last = null;
  }

  cancel(): void {
    this.#last = null;
  }

  #press(hit: Hit | null, more: boolean): void {
    if (lifting.measuring) {
      if (hit) lifting.measured = lifting.measured.length === 1 ? [...lifting.measured, hit] : [hit];
      return;
    }
    lifting.picked = hit;
    if (hit) sight.choose(hit.board, more);
    else sight.chooseNothing();
  }

  wheel(event: WheelEvent): void {
    event.preventDefault();
    this.stage.growBy(Math.exp(-event.deltaY * WHEEL));
  }

  key(event: KeyboardEvent): void {
    const turn: Readonly<Record<string, readonly [number, number]>> = { ArrowLeft: [-STEP, 0], ArrowRight: [STEP, 0], ArrowUp: [0, STEP], ArrowDown: [0, -STEP] };
    const by = turn[event.key];
    if (by) this.stage.turnBy(...by);
    else if (event.key === "+" || event.key === "=") this.stage.growBy(1.2);
    else if (event.key === "-") this.stage.growBy(1 / 1.2);
    else return;
    event.preventDefault();
    event.stopPropagation();
  }
}

function place(event: PointerEvent): [number, number] {
  const box = event.currentTarget instanceof Element ? event.currentTarget.getBoundingClientRect() : { left: 0, top: 0 };
  return [event.clientX - box.left, event.clientY - box.top];
}
