/** The order of assembly as last worked out, and the tick of the slider. */
import { server, Refused } from "../../core/network/client";
import { orderOf, type Order, type Step } from "./order";
import { framesOf, type Frame } from "./frames";

class Orders {
  order = $state.raw<Order | null>(null);
  why = $state("");
  stale = $state(false);
  /** Which frame is looked at, counted from 0. */
  at = $state(0);
  #asked = -1;

  readonly frames: readonly Frame[] = $derived(this.order ? framesOf(this.order) : []);
  readonly steps: readonly Step[] = $derived((this.order?.stages ?? []).flatMap((stage) => stage.steps));

  async fetch(revision: number, again = false): Promise<void> {
    if (revision === this.#asked && !again) return;
    this.#asked = revision;
    try {
      const answered = await server.study("order");
      this.order = orderOf(answered.result);
      this.why = answered.why;
      this.stale = answered.stale;
      if (this.at >= this.frames.length) this.at = Math.max(0, this.frames.length - 1);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.order = null;
      this.why = error.fault.says;
    }
  }
}

export const orders = new Orders();
