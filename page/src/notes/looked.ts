/** What was looked at and what was not, in the words of the page: nothing is approved by silence. */
import type { LeftOpen, State } from "../core/wire";

/** How far the answers are for what is seen: a hand still moves it, or all has answered, or it will not come. */
export type Standing = "moving" | "lost" | "working" | "stopped" | "answered";

export function standing(state: State, seen: { readonly previewed: boolean; readonly lost: boolean }): Standing {
  if (seen.lost) return "lost";
  return seen.previewed ? "moving" : state.rest.stands;
}

export interface Open {
  readonly what: string;
  readonly why: string;
}

const MOST = 3;

/** What is left open; what one question leaves open for one reason stands together, more than three are counted. */
export function grouped(left: readonly LeftOpen[]): Open[] {
  const alike = new Map<string, { why: string; whats: Set<string> }>();
  for (const one of left) {
    const key = `${one.study}\n${one.why}`;
    const group = alike.get(key) ?? { why: one.why, whats: new Set() };
    group.whats.add(one.what);
    alike.set(key, group);
  }
  return [...alike.values()].map(({ why, whats }) => ({ what: some([...whats], MOST), why }));
}

/** The first of several things, and how many more there are. */
export function some(things: readonly string[], most: number, between = ", "): string {
  const more = things.length - most;
  return things.slice(0, most).join(between) + (more > 0 ? ` and ${more} more` : "");
}

/** What is said where there is no note: only what has answered for what is seen can have found nothing. */
export function nothingFound(state: State, stands: Standing): string {
  if (stands !== "answered") return "";
  return state.not_checked.length > 0 ? "Nothing found in what was checked." : "Nothing found.";
}

/** What is to be waited for, in a sentence; "" once all has answered. */
export function waiting(state: State, stands: Standing): string {
  const asked = some(state.not_checked.filter((one) => one.waits).map((one) => one.what), MOST, "; ");
  switch (stands) {
    case "answered":
      return "";
    case "moving":
      return "Working: checked whole once the hand lets go.";
    case "lost":
      return "Not up to date: Dryfit cannot be reached.";
    case "stopped":
      return `Stopped: ${state.rest.says}.`;
    case "working":
      return asked === "" ? "Working." : `Working: ${asked}.`;
  }
}
