import { aLight } from "../../core/light";

export const light = aLight({ name: "timber", word: "Timber", order: 60, studies: [], waits: "Timber waits for the plan of panels and cost." });
