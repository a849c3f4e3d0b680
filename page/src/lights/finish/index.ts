import { aLight } from "../../core/light";

export const light = aLight({ name: "finish", word: "Finish", order: 80, studies: [], waits: "Finish waits for areas and masks." });
