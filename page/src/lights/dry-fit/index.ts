import { aLight } from "../../core/light";

export const light = aLight({ name: "dry-fit", word: "Dry fit", order: 40, studies: [], waits: "Dry fit waits for the study of how each slot may bind." });
