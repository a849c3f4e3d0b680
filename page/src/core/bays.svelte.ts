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
    } else void this.#fetch(at, sight.bays, job.revision);
  }

  async #fetch(at: Point, others: readonly Point[], revision: number): Promise<void> {
    const asked = JSON.stringify([at, others, revision]);
    if (asked === this.#asked) return;
    this.#asked = asked;
    const card = await quietly(async () => (await server.bay(at, others)).card);
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

  /** The bay that is pressed is chosen, or with `more` joins those that are, or leaves them; outside of all nothing is. */
  async press([x, y]: Point, more = false): Promise<void> {
    const found = (await this.#all()).find(({ outline }) => inside(outline, x, y));
    if (!found) return more ? sight.chooseNothing() : undefined;
    if (!more || sight.bay === null) return sight.chooseBay(found.at);
    const chosen = [sight.bay, ...sight.bays];
    const rest = chosen.filter(([px, py]) => !inside(found.outline, px, py));
    sight.chooseBays(rest.length < chosen.length ? rest : [...chosen, found.at]);
  }

  /** The bay that follows those that are chosen, that way along its row, joins them. */
  further([wayX, wayY]: Point): void {
    const opening = this.card?.openings.find(({ axis }) => (axis === "x") === (wayX !== 0));
    if (!opening) return;
    const on = (at: Point): number => at[opening.axis === "x" ? 0 : 1];
    const chosen = opening.row.map(({ start, end }) => [sight.bay, ...sight.bays].some((at) => at !== null && on(at) > start && on(at) < end));
    const next = opening.row[wayX + wayY > 0 ? chosen.lastIndexOf(true) + 1 : chosen.indexOf(true) - 1];
    if (!next || sight.bay === null) return;
    const middle = (next.start + next.end) / 2;
    sight.chooseBays([sight.bay, ...sight.bays, opening.axis === "x" ? [middle, opening.line] : [opening.line, middle]]);
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
