/** The one figure of the drawing that is being typed in. */
import { doing } from "../core/change";
import type { Dimension } from "../core/wire";

export interface Typing {
  readonly dimension: Dimension;
  readonly x: number;
  readonly y: number;
  readonly anchor: "start" | "middle" | "end";
}

class TypingPlace {
  now = $state.raw<Typing | null>(null);
}

export const typing = new TypingPlace();

export function typeAt(dimension: Dimension, x: number, y: number, anchor: Typing["anchor"]): void {
  typing.now = { dimension, x, y, anchor };
}

/** Send what was typed for a figure of the drawing; the server works out what it means for the file. */
export function typed(dimension: Dimension, entry: string): Promise<boolean> {
  return doing({ do: "figure", target: { what: "boards", boards: [dimension.board] }, axis: dimension.axis, now: dimension.value, entry });
}
