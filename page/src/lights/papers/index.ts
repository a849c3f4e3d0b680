import type { Light } from "../light";
import Papers from "./Papers.svelte";
import Sheets from "./Sheets.svelte";

export const light: Light = { name: "papers", word: "Papers", order: 110, Side: Papers, keepsSide: true, Whole: Sheets };
