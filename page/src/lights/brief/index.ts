import { aLight } from "../../core/light";
import Brief from "./Brief.svelte";

export const light = aLight({ name: "brief", word: "Brief", says: "for whom it is, the wall, the room's climate, what must be avoided", order: 10, studies: [], Side: Brief, keepsSide: true });
