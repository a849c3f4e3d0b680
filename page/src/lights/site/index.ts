import { aLight } from "../../core/light";

export const light = aLight({ name: "site", word: "Site", order: 90, studies: [], waits: "Site waits for the map of the wall." });
