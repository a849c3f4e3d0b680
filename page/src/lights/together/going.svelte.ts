/** A hand on the slider: from step to step, each seen on its way in. */
import { answers } from "../../core/answers.svelte";
import { lights } from "../../core/lights.svelte";
import { framesOf, type Frame } from "./frames";
import { frameAt, placeOf } from "./showing";

const WAY_IN = 700; // ms
const SHORT = 0.42; // of the way in: a part stops there, so that its way is seen

class Going {
  readonly frames: readonly Frame[] = $derived.by(() => {
    const order = answers.of("order").result;
    return order ? framesOf(order, answers.of("hanging").result) : [];
  });
  /** Which frame is looked at, counted from 0. */
  readonly at: number = $derived(frameAt(this.frames, lights.at).index);
  #frame = 0;

  goTo(wanted: number): void {
    const index = Math.max(0, Math.min(this.frames.length - 1, wanted));
    const forward = index > this.at;
    const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
    this.stop();
    if (forward && !still) this.#animate(index, SHORT);
    else lights.goTo(placeOf(index, SHORT));
  }

  /** Come in from the far end of the way, all the way home. */
  play(): void {
    this.stop();
    this.#animate(this.at, 1);
  }

  stop(): void {
    cancelAnimationFrame(this.#frame);
  }

  #animate(index: number, to: number): void {
    const began = performance.now();
    const step = (now: number): void => {
      const gone = Math.min(1, Math.max(0, now - began) / WAY_IN);
      lights.goTo(placeOf(index, to * gone));
      if (gone < 1) this.#frame = requestAnimationFrame(step);
    };
    step(began);
  }
}

export const going = new Going();
