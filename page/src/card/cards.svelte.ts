/** The card of what is chosen, fetched anew when the choice or the job changes. */
import { job } from "../core/job.svelte";
import { server } from "../core/network/client";
import { sight } from "../core/sight.svelte";
import type { Card, CardOf } from "../core/wire";

/** Whether what is chosen is a whole row: it is spoken of as one then. */
export function rowChosen(): boolean {
  const [first, ...others] = sight.boards.map((name) => job.boardByName.get(name));
  if (!first?.row || first.frame !== "" || others.length === 0) return false;
  const path = first.path.join();
  const row = [...job.boardByName.values()].filter((board) => board.path.join() === path);
  return row.length === sight.boards.length && others.every((board) => board?.path.join() === path);
}

/** Whose card is shown. */
export function cardOf(): CardOf {
  const [first] = sight.boards;
  return first !== undefined && rowChosen() ? { row: first } : sight.card;
}

/** What was chosen may have gone with the last change; it is let go a moment later. */
function there(of: CardOf): boolean {
  const board = of.board ?? of.row;
  if (board) return job.boardByName.has(board);
  return !of.joint || job.jointOf(of.joint) !== undefined;
}

class Cards {
  now = $state.raw<Card | null>(null);
  #asked = "";

  /** In step with what is chosen and with the job, whether the card is in sight or not: the drawing has its figures. */
  follow(): void {
    const of = cardOf();
    if (job.state && there(of)) void this.fetch(of, job.state.revision);
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
