import { sight } from "../core/sight.svelte";
import { job } from "../core/job.svelte";
import type { Light } from "../core/light";
import { lights } from "../core/lights.svelte";
import type { Note, Severity } from "../core/wire";

const KEPT = "dryfit-evening";

/** The gravest of some notes; null for none. */
export function worst(notes: readonly Note[]): Severity | null {
  if (notes.some((note) => note.severity === "stop")) return "stop";
  if (notes.some((note) => note.severity === "warn")) return "warn";
  return notes.length > 0 ? "note" : null;
}

/** Those that are made; one that is only announced shows nothing and is not shown. */
export function shownLights(): readonly Light[] {
  return lights.all.filter((light) => light.waits === undefined);
}

/** Why a light can show nothing yet; "" where it can. */
export function waitsFor(light: Light): string {
  return light.needsBoards && job.shown?.drawing.boards.length === 0 ? `${light.word} waits for the first board.` : "";
}

export function lift(): void {
  if (sight.lifted || (job.shown?.drawing.boards.length ?? 0) > 0) sight.lifted = !sight.lifted;
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
