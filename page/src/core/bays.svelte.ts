/** The bay that is chosen: what is told of it, the way to another, and its clear openings typed. */
import { changed, doing } from "./change";
import { inUnits } from "./derived";
import { job } from "./job.svelte";
import { lately } from "./lately.svelte";
import { Refused, server } from "./network/client";
import { inside } from "./rect";
import { sight } from "./sight.svelte";
import type { Point } from "./viewport";
import type { Bay, BayCard, Doing, Offer, Opening } from "./wire";

class ChosenBay {
  /** What is told of it; null while it is not known, and where none is chosen. */
  card = $state.raw<BayCard | null>(null);
  #asked = "";
  #known: ReadonlySet<string> = new Set();

  /** In step with what is chosen and with the job. */
  follow(): void {
    const at = sight.bay;
    if (at === null || !job.state) {
      this.card = null;
      this.#asked = "";
    } else void this.#fetch(at, job.revision);
  }

  async #fetch(at: Point, revision: number): Promise<void> {
    const asked = JSON.stringify([at, revision]);
    if (asked === this.#asked) return;
    this.#asked = asked;
    const card = await quietly(async () => (await server.bay([at[0], at[1]])).card);
    if (this.#asked !== asked) return;
    const names = [...job.boardByName.keys()];
    if (card) {
      this.#known = new Set(names);
      this.card = card;
    } else {
      const fresh = this.card === null ? [] : names.filter((name) => !this.#known.has(name)); // a board was put in it
      sight.chooseNothing();
      sight.boards = fresh;
    }
  }

  /** The bay that is pressed is chosen; outside of all nothing is. */
  async press([x, y]: Point): Promise<void> {
    const found = (await this.#all()).find(({ outline }) => inside(outline, x, y));
    if (found) sight.chooseBay(found.at);
  }

  /** The next bay, or the one before, the largest first. */
  async step(by: number): Promise<void> {
    const all = await this.#all();
    const [x, y] = sight.bay ?? [NaN, NaN];
    const at = all.findIndex(({ outline }) => inside(outline, x, y));
    const next = all.at((Math.max(at, by > 0 ? at : 0) + by) % Math.max(1, all.length));
    if (next) sight.chooseBay(next.at);
    else job.trouble = { says: "there is no bay yet", remedy: "let boards close one all round, or type the wall's width and height" };
  }

  async #all(): Promise<readonly Bay[]> {
    await changed();
    if (job.state?.drawn == null) return []; // nothing could be drawn yet
    return (await quietly(async () => (await server.bays()).bays)) ?? [];
  }
}

/** Null where the server has no drawing to find a bay in. */
async function quietly<T>(ask: () => Promise<T>): Promise<T | null> {
  try {
    return await ask();
  } catch (error) {
    if (error instanceof Refused) return null;
    throw error;
  }
}

export const chosenBay = new ChosenBay();

/** The sides that can give, the first one taken unless another is pressed. */
export function sides(opening: Opening): Offer[] {
  return opening.gives.filter(({ why }) => why === "").map(({ board }) => ({ id: board, says: `${board} gives`, boards: [board], axis: "", named: false, relates: true }));
}

/** True when it is saved; the other side then stands at the foot of the card. */
export async function typeClear(at: Point, opening: Opening, entry: string, taken = 0): Promise<boolean> {
  const offers = sides(opening);
  const again = (offer: Offer | undefined): Doing => ({ do: "clear", at: [at[0], at[1]], axis: opening.axis, entry: inUnits(entry), gives: offer?.id ?? "" });
  const saved = await doing(again(offers[taken]));
  if (saved) lately.set(offers, taken, again);
  return saved;
}
