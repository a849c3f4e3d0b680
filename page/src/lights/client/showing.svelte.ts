/** What is seen of the piece just now, for the word beside it that saves it. */
import { answers } from "../../core/answers.svelte";
import { job } from "../../core/job.svelte";
import type { Seen } from "../../lifted/seen";
import { plugsOf, type Mouth } from "./plugs";

const NONE: readonly Mouth[] = [];

class Showing {
  seen = $state.raw<Seen | null>(null);
  saved = $state("");
  readonly #shown = $derived(plugsOf(answers.of("driving"), job.state?.drawn ?? -1));
  readonly plugs = $derived(this.#shown.plugs ?? NONE);
  readonly lacks = $derived(this.#shown.lacks);

  /** Give the picture to the browser, to be saved under the job's name. */
  async save(title: string): Promise<void> {
    const picture = await this.seen?.picture();
    if (!picture) {
      this.saved = "This browser gives no picture of it.";
      return;
    }
    const link = document.createElement("a");
    link.href = URL.createObjectURL(picture);
    link.download = fileNamed(title);
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
    this.saved = `Given to the browser as ${link.download}.`;
  }
}

/** A file's name of a title: what systems allow in none is left out. */
export function fileNamed(title: string): string {
  const kept = title.replace(/[\\/:*?"<>|\p{Cc}]+/gu, " ").replace(/\s+/g, " ").trim();
  return `${kept === "" ? "piece" : kept}.png`;
}

export const showing = new Showing();
