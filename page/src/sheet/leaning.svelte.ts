/** The rake of the chosen board, typed in a sentence of its own: plumb boards have no figure on the drawing to type over. */
import { tick } from "svelte";
import { derivedOf, figureToType, typeDerived, waysOf } from "../core/derived";
import { Refused, server } from "../core/network/client";
import { sight } from "../core/sight.svelte";
import type { DerivedOf, Offer, Row } from "../core/wire";
import { rowChosen } from "../card/cards.svelte";
import { drawing } from "./drawing.svelte";
import { typed, typeIn } from "./typed.svelte";

const [HERE, ONE] = ["here", "only this one"];

interface Now {
  readonly board: string;
  readonly row: Row;
  readonly of: DerivedOf;
  readonly offers: readonly Offer[];
}

class Leaning {
  now = $state.raw<Now | null>(null);
  way = $state(0);

  async begin(): Promise<void> {
    const [board] = sight.boards;
    const whole = rowChosen();
    if (board === undefined || (sight.boards.length > 1 && !whole)) return;
    drawing.end();
    this.now = null;
    this.way = 0;
    sight.lifted = false;
    sight.tool = "lean";
    try {
      const row = (await server.card({ board })).rows.find((one) => one.derived === "rake");
      const of = row ? derivedOf(row, board) : null;
      if (sight.tool !== "lean") return;
      if (!row || !of) {
        drawing.says = `${board} has no rake to type: it hangs on the corners of its frame.`;
        return;
      }
      const offers = (await waysOf(of)).filter((offer) => !offer.named);
      this.way = Math.max(0, offers.findIndex((offer) => offer.id === (whole ? HERE : ONE))); // as the sentence speaks of one board, or of the row
      this.now = { board, row, of, offers };
      typed.begin({ lean: figureToType(row) });
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      drawing.says = error.fault.says;
    }
    await tick();
    typeIn("lean");
  }

  async put(): Promise<void> {
    const entry = (typed.entries.lean ?? "").trim();
    if (!this.now || entry === "" || !(await typeDerived(this.now.of, entry, this.now.offers, this.way))) return;
    drawing.end();
    document.getElementById("drawing")?.focus({ preventScroll: true });
  }
}

export const leaning = new Leaning();
