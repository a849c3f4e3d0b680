/** A hand on the rod of steps, and on one screw. The wall itself, as it is marked and drilled, comes before the first. */
import { answers } from "../../core/answers.svelte";
import { lights } from "../../core/lights.svelte";
import { isOf, keyOf, stepsOf, type Driven, type SiteStep } from "./steps";

class HangingAtHand {
  readonly steps: readonly SiteStep[] = $derived(stepsOf({ order: answers.of("order").result, hanging: answers.of("hanging").result, driving: answers.of("driving").result }));
  readonly screws: readonly Driven[] = $derived(answers.of("driving").result?.screws ?? []);
  /** The step at hand; 0 for the wall. */
  readonly at: number = $derived(Math.max(0, Math.min(this.steps.length, Math.round(lights.at))));
  readonly step: SiteStep | null = $derived(this.steps[this.at - 1] ?? null);
  #chosen = $state.raw("");

  /** The screw that is looked at closely: the one chosen, else the first of the step, else the first. */
  readonly screw: Driven | null = $derived(
    this.screws.find((one) => keyOf(one) === this.#chosen) ?? this.screws.find((one) => isOf(one, this.at)) ?? this.screws[0] ?? null,
  );

  goTo(wanted: number): void {
    this.#chosen = "";
    lights.goTo(Math.max(0, Math.min(this.steps.length, wanted)));
  }

  choose(screw: { readonly fixing: string; readonly number: number }): void {
    this.#chosen = keyOf(screw);
  }
}

export const hanging = new HangingAtHand();
