import type { Light } from "../light";
import Brief from "./Brief.svelte";

export const light: Light = { name: "brief", word: "Brief", order: 10, Side: Brief, keepsSide: true };
