import { aLight } from "../../core/light";
import Papers from "./Papers.svelte";
import Sheets from "./Sheets.svelte";

export const light = aLight({ name: "papers", word: "Papers", order: 110, studies: [], needsBoards: true, Side: Papers, keepsSide: true, Whole: Sheets });
