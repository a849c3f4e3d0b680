import { aLight } from "../../core/light";

export const light = aLight({ name: "price", word: "Price", order: 100, studies: [], waits: "Price waits for cost by part." });
