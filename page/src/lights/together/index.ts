import type { Light } from "../light";
import Foot from "./Foot.svelte";
import Together from "./Together.svelte";

export const light: Light = { name: "together", word: "Together", order: 30, studies: ["order", "glue_up", "fits"], Side: Together, keepsSide: true, Foot };
