/** The step at hand as a pose of the model: what is there, what comes along its way in, what is still to come. */
import { sight } from "../../core/sight.svelte";
import { lifting, STANDING, type Pose } from "../../lifted/lifting.svelte";
import { awayAt, type Frame } from "./frames";
import { orders } from "./orders.svelte";

const WAY_IN = 700; // ms
const FAR = 1.25; // a part starts this much farther out than it must, so that it is seen to be out
/** Lying on its wall edges, seen from the foot; standing; lying on its front edges, seen from behind. */
const LYING = { yaw: -24, pitch: -24, says: "Lying on its wall edges, seen from the foot; what comes in comes down." } as const;
const TURNED = { yaw: 156, pitch: -24, says: "Lying on its front edges, seen from the foot; what comes in comes down." } as const;
const UP = { ...STANDING, says: "Standing at its wall." } as const;

class Showing {
  /** Share of the way in that is gone. */
  #share = 1;
  #frame = 0;

  /** Show the steps until the light is left. */
  begin(): () => void {
    const stop = $effect.root(() => {
      $effect(() => {
        this.#pose(orders.frames[orders.at]);
      });
    });
    return () => {
      stop();
      cancelAnimationFrame(this.#frame);
      lifting.pose = null;
    };
  }

  goTo(index: number): void {
    const at = Math.max(0, Math.min(orders.frames.length - 1, index));
    const forward = at > orders.at;
    orders.at = at;
    cancelAnimationFrame(this.#frame);
    const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
    if (!forward || still) return this.#settle(0.42);
    this.#animate();
  }

  /** Come in from the far end of the way, stop short, so that the way is seen. */
  play(): void {
    cancelAnimationFrame(this.#frame);
    this.#animate(1);
  }

  #animate(to = 0.42): void {
    const began = performance.now();
    const step = (now: number): void => {
      const gone = Math.min(1, (now - began) / WAY_IN);
      this.#settle(to * gone);
      if (gone < 1) this.#frame = requestAnimationFrame(step);
    };
    step(began);
  }

  #settle(share: number): void {
    this.#share = share;
    this.#pose(orders.frames[orders.at]);
  }

  #pose(frame: Frame | undefined): void {
    if (!frame) {
      lifting.pose = null;
      return;
    }
    const there = new Set(frame.there);
    const coming = new Set(frame.parts);
    const stage = new Set(frame.stage.parts);
    const far = frame.step ? awayAt(frame.step, 0) : [0, 0, 0];
    const away = [0, 1, 2].map((axis) => (far[axis] ?? 0) * FAR * (1 - this.#share));
    const [x = 0, y = 0, z = 0] = away;
    const pose: Pose = {
      ...(frame.stage.place === "site" && frame.kind === "after" ? UP : frame.up === "wall" ? TURNED : LYING),
      stateOf: (board) => {
        if (coming.has(board)) return { look: "solid", away: [x, y, z] };
        if (there.has(board)) return { look: "solid", away: [0, 0, 0] };
        return { look: stage.has(board) ? "to come" : "hidden", away: [0, 0, 0] };
      },
    };
    lifting.pose = pose;
    if (frame.kind === "move") sight.boards = frame.parts;
  }
}

export const showing = new Showing();
