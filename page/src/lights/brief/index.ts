import { aLight } from "../../core/light";
import Brief from "./Brief.svelte";

export const light = aLight({ name: "brief", word: "Brief", order: 10, studies: [], Side: Brief, keepsSide: true });
