/** What the foot says of a step, put together from what the studies have answered. */
import { capital } from "../../core/sentence";
import { length, type LengthUnit } from "../../core/units";
import type { Driven, Entering, SiteStep } from "./steps";
import { acts, truest } from "./steps";

const FROM = {
  front: "from the front, back to the wall", above: "from above", below: "from below", left: "from the left", right: "from the right", behind: "from behind",
} as const;
const HELD = { fixings: "", floor: "it stands on the floor", joints: "its joints hold it", hands: "hands hold it until more is in" } as const;
const PEOPLE = ["", "One person", "Two people", "Three people"];

export function kg(mass: number): string {
  return `${mass < 10 ? mass.toFixed(1) : mass.toFixed(0)} kg`;
}

/** What is done: what goes up, from where, and its screws. */
export function doneWords(step: SiteStep, screws: readonly Driven[]): string {
  const way = step.way;
  const from = step.onFloor ? "put together on the floor, to go up with others" : way ? FROM[way.comes] : "lifted to its marks";
  return capital([`${step.name}: ${from}`, ...acts(screws, step.number)].join("; "));
}

/** How many lift, at which height their hands are, and who holds what meanwhile. */
export function liftWords(step: SiteStep, units: LengthUnit): string {
  const { lift, way } = step;
  const held = way ? HELD[way.held] : "";
  if (lift === null) return held;
  const more = lift.holding > 0 ? `, ${lift.holding} more to hold what is loose` : "";
  if (lift.mass_kg === null) return "Weigh it first: its mass decides how many lift it";
  const [low, high] = lift.hands;
  const where = lift.overhead ? "all of it over head height: from a stable platform, no guideline weight holds there" : `hands ${length(Math.round(low), units)} to ${length(Math.round(high), units)} up`;
  const who = lift.people === null ? "Too heavy for three by the guideline" : (PEOPLE[lift.people] ?? `${lift.people} people`);
  return [`${who}${more}: ${kg(lift.mass_kg)}, reckoned ${kg(lift.reckoned_kg).replace(" kg", "")}; ${where}`, held].filter((word) => word !== "").join("; ");
}

/** How true what stands there must be for what still comes; null where nothing that comes limits it. */
export function trueWords(entries: readonly Entering[], steps: readonly SiteStep[], number: number, units: LengthUnit): { readonly before: string; readonly figure: string; readonly after: string } | null {
  const found = truest(entries, steps, Math.max(1, number));
  if (found === null) return null;
  const { entry, step, lean } = found;
  const out = Math.floor(lean * entry.high * 10 + 1e-9) / 10; // never told larger than it is
  return { before: "Out of plumb by", figure: length(out, units), after: `over ${length(entry.high, units)} at most, or ${entry.name} binds at step ${step}` };
}
