/** The card of what is chosen, fetched anew when the choice or the job changes. */
import { job } from "../core/job.svelte";
import { server } from "../core/network/client";
import type { Card, CardOf } from "../core/wire";

class Cards {
  now = $state.raw<Card | null>(null);
  #asked = "";

  async fetch(of: CardOf, revision: number): Promise<void> {
    const asked = JSON.stringify([of, revision]);
    if (asked === this.#asked) return;
    this.#asked = asked;
    try {
      const card = await server.card(of);
      if (this.#asked === asked) this.now = card;
    } catch {
      if (this.#asked === asked) this.now = null; // what was chosen is there no longer
    }
  }
}

export const cards = new Cards();

export function massOf(board: string): number | undefined {
  return job.shown?.rest.masses.find(([name]) => name === board)?.[1];
}
