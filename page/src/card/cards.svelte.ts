/** The card of what is chosen, fetched anew when the choice or the job changes. */
import { job } from "../core/job.svelte";
import { server } from "../core/network/client";
import { sight } from "../core/sight.svelte";
import type { Card, CardOf } from "../core/wire";

/** What was chosen may have gone with the last change; it is let go a moment later. */
function there(of: CardOf): boolean {
  if (of.board) return job.boardByName.has(of.board);
  return !of.joint || job.jointOf(of.joint) !== undefined;
}

class Cards {
  now = $state.raw<Card | null>(null);
  #asked = "";

  /** In step with what is chosen and with the job, whether the card is in sight or not: the drawing has its figures. */
  follow(): void {
    if (job.state && there(sight.card)) void this.fetch(sight.card, job.state.revision);
  }

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
