import { aLight } from "../../core/light";

export const light = aLight({ name: "bench", word: "Bench", order: 70, studies: [], waits: "Bench waits for the set-up sheets." });
