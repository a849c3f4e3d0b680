/** A row being laid: in which bay, how many boards, standing or lying. */
import { inUnits } from "../core/derived";
import { job } from "../core/job.svelte";
import { inside } from "../core/rect";
import type { Point } from "../core/viewport";
import type { Bay, Doing } from "../core/wire";
import { typed } from "./typed.svelte";

const USUAL = 2; // boards, for three bays
const MOST = 100;

const orNone = (entry: string): string | null => (entry === "" ? null : entry);

class Row {
  bays = $state.raw<readonly Bay[]>([]);
  at = $state(0);
  lying = $state(false);
  /** How far apart, as typed; "" where the bays are equal. */
  readonly #clear: string = $derived((typed.entries.clear ?? "").trim());
  readonly #centres: string = $derived((typed.entries.centres ?? "").trim());
  readonly spaced: boolean = $derived(this.#clear !== "" || this.#centres !== "");
  /** Null for as many as there is room for. */
  readonly count: number | null = $derived(typed.figures.count === undefined && this.spaced ? null : Math.round(typed.figures.count ?? USUAL));
  readonly bay: Bay | undefined = $derived(this.bays[this.at]);
  /** What is clear between its boards; null where there is no room for them. */
  readonly each: number | null = $derived.by(() => {
    const [bay, thick] = [this.bay, job.state?.wall?.thick];
    if (!bay || thick === undefined || this.count === null || this.spaced || typed.figures.lean) return null;
    const clear = ((this.lying ? bay.high : bay.wide) - this.count * thick) / (this.count + 1);
    return clear > 0 ? clear : null;
  });
  readonly whole: Doing | null = $derived(
    this.bay && (this.count === null || (this.count >= 1 && this.count <= MOST))
      ? { do: "row", at: this.bay.at, count: this.count, lying: this.lying, clear: orNone(inUnits(this.#clear)), centres: orNone(inUnits(this.#centres)), lean: orNone((typed.entries.lean ?? "").trim()) }
      : null,
  );

  /** @param from a point in the bay that was chosen, which it is laid in. */
  begin(bays: readonly Bay[], from: Point | null = null): void {
    this.bays = bays;
    this.at = from === null ? 0 : Math.max(0, bays.findIndex(({ outline }) => inside(outline, from[0], from[1])));
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
