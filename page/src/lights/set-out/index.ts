import { aLight } from "../../core/light";

export const light = aLight({ name: "set-out", word: "Set out", order: 20, studies: [], first: true });
