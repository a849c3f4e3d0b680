/** Arrow keys move what is chosen; presses close upon each other make one step of undo. */
import { drag } from "./drag.svelte";
import { job } from "./job.svelte";
import { sight } from "./sight.svelte";
import type { Point } from "./viewport";
import type { Target } from "./wire";

const REST = 500;

let timer = 0;
let sum: Point = [0, 0];
let active = false;

function target(): Target {
  const [name] = sight.boards;
  const frame = name === undefined ? "" : (job.boardByName.get(name)?.frame ?? "");
  const side = job.shown?.frames.find((one) => one.name === frame)?.boards.indexOf(name ?? "") ?? -1;
  return sight.boards.length === 1 && side >= 0 ? { what: "side", frame, side } : { what: "boards", boards: [...sight.boards] };
}

export function nudge([x, y]: Point): void {
  if (!active) {
    active = true;
    sum = [0, 0];
    void drag.grip(target());
  }
  drag.exact = true;
  sum = [round(sum[0] + x), round(sum[1] + y)];
  drag.move(sum);
  clearTimeout(timer);
  timer = window.setTimeout(nudgeSettled, REST);
}

export function nudgeSettled(): void {
  if (!active) return;
  active = false;
  clearTimeout(timer);
  void drag.release();
  drag.exact = false;
}

const round = (value: number): number => Math.round(value * 1e4) / 1e4; // no more than the noise of adding up
