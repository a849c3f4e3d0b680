/** Site: the wall as it is, and each step on it: what goes up, which screws are driven, left loose, tightened; who lifts. */
import { aLight } from "../../core/light";
import Foot from "./Foot.svelte";
import { hanging } from "./hanging.svelte";
import Over from "./Over.svelte";
import { shownAt } from "./showing";
import Side from "./Side.svelte";
import { stepsOf } from "./steps";

export const light = aLight({
  name: "site", word: "Site", says: "the wall and each step on it: holes, screws, how true it must hang, who lifts", order: 90, studies: ["order", "hanging", "driving", "marking", "trueness", "carrying"], needsBoards: true,
  show: (results, at) => shownAt(stepsOf(results), Math.round(at)),
  step: (by) => hanging.goTo(hanging.at + by), Side, keepsSide: true, Over, Foot,
});
