/** The row of the card that a hand or the keyboard rests on: its sentence stands at the card's foot, so that nothing moves. */
import type { Row } from "../core/wire";

class Told {
  row = $state.raw<Row | null>(null);
  /** A word of the bars that is rested on, or a finger stays on; "" for none. */
  word = $state("");
  /** All sentences stand under their rows: by a key. */
  all = $state(false);
}

export const told = new Told();
