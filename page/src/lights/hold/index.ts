import { aLight } from "../../core/light";

export const light = aLight({ name: "hold", word: "Hold", order: 50, studies: [], waits: "Hold waits for the study of loads and sag." });
