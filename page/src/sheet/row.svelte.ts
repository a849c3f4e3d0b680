/** A row being laid: in which bay, how many boards, standing or lying. */
import { job } from "../core/job.svelte";
import type { Point } from "../core/viewport";
import type { Bay, Doing } from "../core/wire";
import { inside } from "./ends";
import { typed } from "./typed.svelte";

const USUAL = 2; // boards, for three bays
const MOST = 100;

class Row {
  bays = $state.raw<readonly Bay[]>([]);
  at = $state(0);
  lying = $state(false);
  readonly count: number = $derived(Math.round(typed.figures.count ?? USUAL));
  readonly bay: Bay | undefined = $derived(this.bays[this.at]);
  /** What is clear between its boards; null where there is no room for them. */
  readonly each: number | null = $derived.by(() => {
    const [bay, thick] = [this.bay, job.state?.wall?.thick];
    if (!bay || thick === undefined) return null;
    const clear = ((this.lying ? bay.high : bay.wide) - this.count * thick) / (this.count + 1);
    return clear > 0 ? clear : null;
  });
  readonly whole: Doing | null = $derived(
    this.bay && this.count >= 1 && this.count <= MOST ? { do: "row", at: this.bay.at, count: this.count, lying: this.lying } : null,
  );

  begin(bays: readonly Bay[]): void {
    this.bays = bays;
    this.at = 0;
  }

  /** The bay that is pressed; false where there is none. */
  choose([x, y]: Point): boolean {
    const found = this.bays.findIndex(({ outline }) => inside(outline, x, y));
    if (found >= 0) this.at = found;
    return found >= 0;
  }

  walk(by: number): void {
    this.at = (this.at + by + this.bays.length) % Math.max(1, this.bays.length);
  }
}

export const row = new Row();
