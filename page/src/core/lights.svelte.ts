/** The lights there are, the one looked at, and how it has the piece drawn. */
import { answers } from "./answers.svelte";
import type { Light, ResultsOf } from "./light";
import type { Shown } from "./shown";
import { sight } from "./sight.svelte";
import { whatIf } from "./whatif.svelte";
import type { StudyName } from "./wire";

/** Of lights, the one with this name; where there is none, the one the page opens in. */
export function lightNamed(name: string, all: readonly Light[]): Light | undefined {
  return all.find((light) => light.name === name && light.waits === undefined) ?? all.find((light) => light.first);
}

/** The light that a note belongs to, by the study that found it. */
export function lightOf(study: string, all: readonly Light[]): Light | undefined {
  return all.find((light) => light.waits === undefined && light.studies.some((name) => name === study)) ?? all.find((light) => light.first);
}

class Lights {
  /** In the order of the job. */
  all = $state.raw<readonly Light[]>([]);
  #at = $state.raw<ReadonlyMap<string, number>>(new Map());

  #before = ""; // the one that was left for one that Escape leaves

  readonly now: Light | undefined = $derived(lightNamed(sight.light, this.all));
  /** Whether the drawing is there to be drawn on and moved; else no key may change what is not in sight. */
  readonly drawnOn: boolean = $derived(!this.now?.Whole && !this.now?.Foot);
  /** How far the light's own slider is. */
  readonly at: number = $derived(this.#at.get(this.now?.name ?? "") ?? 0);
  readonly shown: Shown | null = $derived(this.now?.show?.(this.#results(this.now.studies), this.at) ?? null);

  /** The light with this name; from one that Escape leaves it leads back to where one came from. */
  choose(name: string): void {
    if (this.now?.leaves !== true) this.#before = this.now?.name ?? "";
    sight.light = name;
  }

  /** Back to the light that one came from. */
  leave(): void {
    sight.light = this.#before;
  }

  goTo(at: number): void {
    if (this.now) this.#at = new Map(this.#at).set(this.now.name, at);
  }

  /** Those the light names and no others: it was made for no others. While a lever of one is moved, what it would give. */
  #results(names: readonly StudyName[]): ResultsOf<StudyName> {
    const told: readonly (readonly unknown[])[] = names.map((name) => [name, whatIf.of(name)?.result ?? answers.of(name).result]);
    return Object.fromEntries(told);
  }
}

export const lights = new Lights();
