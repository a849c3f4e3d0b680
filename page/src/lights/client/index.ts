/** For the client: the piece in its room, wood and nothing else; saved as a picture. */
import { aLight } from "../../core/light";
import Beside from "./Beside.svelte";
import Foot from "./Foot.svelte";
import InTheRoom from "./InTheRoom.svelte";

export const light = aLight({
  name: "client", word: "Client", says: "the piece in its room without marks, for whoever it is made for", order: 105, studies: [], needsBoards: true, leaves: true,
  Whole: InTheRoom, Side: Beside, keepsSide: true, Foot,
});
