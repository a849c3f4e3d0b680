/** The words of the hand's line: what can be done on the drawing, the same for pointer, finger and keys. */
import { copyChosen, deleteChosen, mirrorChosen } from "../card/acts";
import { lights } from "../core/lights.svelte";
import { sight } from "../core/sight.svelte";
import { chosenBay } from "../core/bays.svelte";
import { rowChosen } from "../card/cards.svelte";
import { drawing } from "./drawing.svelte";
import { leaning } from "./leaning.svelte";
import type { Word } from "./sentences";
import { beginWall, putWall } from "./walling.svelte";

export interface Act {
  readonly word: string;
  /** As it is shown, and its first letter as it is pressed. */
  readonly key: string;
  /** The sentence that it opens; none where it is done at once. */
  readonly opens?: Word;
  /** What it is done with, if that has to be chosen first. */
  readonly needs?: "boards" | "one board";
  do(): void;
}

export const ACTS: readonly Act[] = [
  { word: "the wall", key: "W", opens: "wall", do: () => void beginWall() },
  { word: "a board", key: "B", opens: "board", do: () => void drawing.begin("board") },
  { word: "a row", key: "R", opens: "row", do: () => void drawing.begin("row", sight.bay) },
  { word: "a frame", key: "F", opens: "frame", do: () => void drawing.begin("frame") },
  { word: "a bay", key: "O", do: () => void beginBay() },
  { word: "lean", key: "A", opens: "lean", needs: "one board", do: () => void leaning.begin() },
  { word: "copy", key: "D", needs: "boards", do: () => void copyChosen() },
  { word: "mirror", key: "M", needs: "boards", do: () => void mirrorChosen() },
  { word: "take out", key: "Del", needs: "boards", do: () => void deleteChosen() },
];

export function can(act: Act): boolean {
  if (!lights.drawnOn) return false;
  if (act.needs === undefined) return true;
  return act.needs === "boards" ? sight.boards.length > 0 : sight.boards.length === 1 || rowChosen();
}

/** Choose a bay, or the next one: as a press in it does. */
function beginBay(): Promise<void> {
  drawing.end();
  sight.lifted = false;
  return chosenBay.step(1);
}

/** Put in what the open sentence says. */
export function put(): void {
  if (sight.tool === "wall") void putWall();
  else if (sight.tool === "lean") void leaning.put();
  else drawing.put();
}
