/** The booklet's words and sections for the steps, as last fetched: a sheet a step, in the order of the frames. */
import { job } from "../../core/job.svelte";
import { Refused, server } from "../../core/network/client";
import type { Assembly, AssemblyStep, GlueCard } from "../../core/wire";

class Assembled {
  #told = $state.raw<Assembly | null>(null);
  #asked = "";

  /** Null where none is known of what is drawn now: the words of another piece are not said. */
  readonly now: Assembly | null = $derived(this.#told !== null && this.#told.revision === job.state?.drawn ? this.#told : null);

  /** In step with the job: asked once the slow work has answered for what is drawn. */
  follow(): void {
    const state = job.state;
    if (!state || state.rest.stands !== "answered") return;
    const asked = `${state.drawn ?? ""} ${state.revision}`;
    if (asked === this.#asked) return;
    this.#asked = asked;
    void this.#fetch(asked);
  }

  async #fetch(asked: string): Promise<void> {
    try {
      const told = await server.assembly();
      if (this.#asked === asked) this.#told = told;
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.#asked = ""; // asked anew with the next answer of the slow work
    }
  }

  step(index: number): AssemblyStep | undefined {
    return this.now?.steps[index];
  }

  card(number: number): GlueCard | undefined {
    return this.now?.cards.find((card) => card.number === number);
  }
}

export const assembled = new Assembled();
