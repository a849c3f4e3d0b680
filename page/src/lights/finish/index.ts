/** Finish: what of each board is coated, masked and seen, and what is done to it day by day. */
import { aLight } from "../../core/light";
import { sight } from "../../core/sight.svelte";
import Foot from "./Foot.svelte";
import Side from "./Side.svelte";
import { shownAt } from "./shown";
import { steps } from "./steps.svelte";

export const light = aLight({
  name: "finish", word: "Finish", says: "what of each board is seen, masked and coated, and what is done on which day",
  order: 80, studies: ["coating"], needsBoards: true,
  show: ({ coating }, at) => coating && shownAt(coating, at, sight.units), step: (by) => steps.goTo(steps.at + by),
  Side, keepsSide: true, Foot,
});
