/** The one figure of the drawing that is being typed in. */
import { doing } from "../core/change";
import { sight } from "../core/sight.svelte";
import type { BoardShown, Dimension } from "../core/wire";

export interface Typing {
  readonly dimension: Dimension;
  readonly x: number;
  readonly y: number;
  readonly anchor: "start" | "middle" | "end";
}

class TypingPlace {
  now = $state.raw<Typing | null>(null);
  /** The row of the card that is to take the next typing, by its label. */
  row = $state<string | null>(null);
}

export const typing = new TypingPlace();

export function typeAt(dimension: Dimension, x: number, y: number, anchor: Typing["anchor"]): void {
  typing.now = { dimension, x, y, anchor };
}

/** A rake is typed on the card, where its figure stands with its words. */
export function typeRake(board: BoardShown): void {
  sight.choose(board.name);
  typing.row = "rake";
}

/** Send what was typed for a figure of the drawing; the server works out what it means for the file. */
export function typed(dimension: Dimension, entry: string): Promise<boolean> {
  return doing({ do: "figure", target: { what: "boards", boards: [dimension.board] }, axis: dimension.axis, now: dimension.value, entry });
}
