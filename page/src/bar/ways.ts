import { sight } from "../core/sight.svelte";
import type { Note, Severity } from "../core/wire";

const KEPT = "dryfit-evening";

/** The gravest of some notes; null for none. */
export function worst(notes: readonly Note[]): Severity | null {
  if (notes.some((note) => note.severity === "stop")) return "stop";
  if (notes.some((note) => note.severity === "warn")) return "warn";
  return notes.length > 0 ? "note" : null;
}

export function lift(): void {
  sight.lifted = !sight.lifted;
}

export function setEvening(on: boolean): void {
  sight.evening = on;
  if (on) document.documentElement.dataset["evening"] = "yes";
  else delete document.documentElement.dataset["evening"];
}

export function toggleEvening(): void {
  setEvening(!sight.evening);
  localStorage.setItem(KEPT, sight.evening ? "yes" : "no");
}

/** Evening as it was left, else as the system has it. */
export function eveningAtStart(): void {
  const kept = localStorage.getItem(KEPT);
  setEvening(kept === null ? matchMedia("(prefers-color-scheme: dark)").matches : kept === "yes");
}
