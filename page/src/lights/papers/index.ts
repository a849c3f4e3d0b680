import { aLight } from "../../core/light";
import Papers from "./Papers.svelte";
import Sheets from "./Sheets.svelte";

export const light = aLight({ name: "papers", word: "Papers", says: "the sheets for bench, wall and client: look, make, save", order: 110, studies: [], needsBoards: true, Side: Papers, keepsSide: true, Whole: Sheets });
