import { doing } from "../core/change";
import { job } from "../core/job.svelte";
import { sight } from "../core/sight.svelte";

const ASIDE = 100; // mm: where a copy is laid down before it is dragged

export async function copyChosen(): Promise<void> {
  const known = new Set(job.boardByName.keys());
  if (sight.boards.length === 0) return;
  if (await doing({ do: "copy", boards: [...sight.boards], by: [ASIDE, 0] })) {
    sight.boards = [...job.boardByName.keys()].filter((name) => !known.has(name));
  }
}

/** About the middle of the wall: as a copy, the boards chosen staying where they are, or they themselves. */
export async function mirrorChosen(keep = true): Promise<void> {
  const extent = job.shown?.drawing.extent;
  if (sight.boards.length === 0 || !extent) return;
  await doing({ do: "mirror", boards: [...sight.boards], x: (extent[0] + extent[2]) / 2, keep });
}

export async function deleteChosen(): Promise<void> {
  if (sight.boards.length === 0) return;
  if (await doing({ do: "delete", boards: [...sight.boards] })) sight.chooseNothing();
}
