/** Typing a figure that is worked out of a board: the server moves what it hangs on, and says how that may be written. */
import { doing } from "./change";
import { job } from "./job.svelte";
import { lately } from "./lately.svelte";
import { Refused, server } from "./network/client";
import { sight } from "./sight.svelte";
import { length, withUnit } from "./units";
import type { DerivedOf, Doing, Offer, Row } from "./wire";

export function derivedOf(row: Row, board: string): DerivedOf | null {
  return row.derived === "" ? null : { board, figure: row.derived, beside: row.beside };
}

/** What stands in the box before anything is typed: the figure as it is seen. */
export function figureToType(row: Row): string {
  return row.unit === "mm" && typeof row.value === "number" ? length(row.value, sight.units) : row.shown;
}

/** A length that was typed in the units shown, as the server reads it in the job's. */
export function inUnits(entry: string): string {
  return withUnit(entry, sight.units, job.units);
}

/** The ways in which it may be written, the usual one first; none where the server cannot say. */
export async function waysOf(of: DerivedOf): Promise<readonly Offer[]> {
  try {
    return (await server.ways(job.revision, of)).offers;
  } catch (error) {
    if (error instanceof Refused) return [];
    throw error;
  }
}

/** True when it is saved; the other ways then stand at the foot of the card. */
export async function typeDerived(of: DerivedOf, entry: string, offers: readonly Offer[], taken = 0): Promise<boolean> {
  const figure = of.figure === "rake" ? entry : inUnits(entry);
  const again = (offer: Offer | undefined, name: string): Doing => ({ do: "derived", ...of, entry: figure, choice: offer?.id ?? "", name });
  const saved = await doing(again(offers[taken], ""));
  if (saved) lately.set(offers, taken, again);
  return saved;
}
