/** The frames of the plan as last answered, and the one that is looked at. */
import { answers } from "../../core/answers.svelte";
import { lights } from "../../core/lights.svelte";
import { frameAt, framesOf, type Frame } from "./shown";

class Steps {
  readonly frames: readonly Frame[] = $derived.by(() => {
    const coating = answers.of("coating").result;
    return coating ? framesOf(coating) : [];
  });
  readonly at: number = $derived(frameAt(this.frames, lights.at));

  goTo(wanted: number): void {
    lights.goTo(Math.max(0, Math.min(this.frames.length - 1, wanted)));
  }
}

export const steps = new Steps();
