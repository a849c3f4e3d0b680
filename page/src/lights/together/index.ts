import { aLight } from "../../core/light";
import Foot from "./Foot.svelte";
import { assembled } from "./assembled.svelte";
import { going } from "./going.svelte";
import { shownAt } from "./showing";
import Together from "./Together.svelte";

export const light = aLight({
  name: "together", word: "Together", says: "step by step how it is glued up and goes onto the wall", order: 30, studies: ["order", "hanging", "glue_up", "fits"], needsBoards: true,
  show: ({ order, hanging }, at) => shownAt(order, at, assembled.now, hanging),
  step: (by) => going.goTo(going.at + by), Side: Together, keepsSide: true, Foot,
});
