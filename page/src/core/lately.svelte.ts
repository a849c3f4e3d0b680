/** The last move that might have been written another way, until the job changes again. */
import { job } from "./job.svelte";
import type { Doing, Offer } from "./wire";

interface Last {
  readonly offers: readonly Offer[];
  readonly taken: number;
  readonly revision: number;
  again(offer: Offer, name: string): Doing;
}

class Lately {
  #last = $state.raw<Last | null>(null);
  readonly now: Last | null = $derived(this.#last !== null && this.#last.revision === job.revision ? this.#last : null);

  /** @param again the same move, written in another way. */
  set(offers: readonly Offer[], taken: number, again: Last["again"]): void {
    this.#last = { offers, taken, revision: job.revision, again };
  }
}

export const lately = new Lately();
