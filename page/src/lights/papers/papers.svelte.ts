/** The papers as the server has them, and the work of making them. */
import { hear } from "../../core/heard";
import { job } from "../../core/job.svelte";
import { Refused, server } from "../../core/network/client";
import type { Live, Papers } from "../../core/wire";

class PapersPlace {
  all = $state.raw<Papers | null>(null);
  progress = $state.raw<{ done: number; says: string } | null>(null);
  saved = $state.raw<{ folder: string; files: readonly string[] } | null>(null);

  async fetch(): Promise<void> {
    await this.#try(async () => {
      this.all = await server.papers();
    });
  }

  async make(names: readonly string[] = []): Promise<void> {
    this.saved = null;
    await this.#try(async () => {
      this.progress = { done: 0, says: "begins" };
      await server.makePapers(names);
      this.all = await server.papers();
    });
  }

  async cancel(): Promise<void> {
    const task = this.all?.task;
    if (task == null) return;
    await this.#try(async () => {
      this.all = await server.cancelPapers(task);
      this.progress = null;
    });
  }

  async save(files: readonly string[] = []): Promise<void> {
    await this.#try(async () => {
      this.saved = await server.savePapers(files);
    });
  }

  heard(message: Live): void {
    if (message.kind === "progress") this.progress = { done: message.done, says: message.says };
    else this.#ended(message);
  }

  #ended(message: Live): void {
    this.progress = null;
    if (message.failed) job.trouble = message.failed;
    void this.fetch();
  }

  async #try(ask: () => Promise<void>): Promise<void> {
    try {
      await ask();
    } catch (error) {
      this.progress = null;
      if (!(error instanceof Refused)) throw error;
      job.trouble = error.fault;
    }
  }
}

export const papers = new PapersPlace();
hear((message) => papers.heard(message));
