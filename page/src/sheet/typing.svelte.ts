/** The one figure of the drawing that is being typed in. */
import { typeClear } from "../core/bays.svelte";
import { doing } from "../core/change";
import { derivedOf, figureToType, inUnits, typeDerived, waysOf } from "../core/derived";
import { sight } from "../core/sight.svelte";
import { length } from "../core/units";
import type { Point } from "../core/viewport";
import type { Dimension, Opening, Row } from "../core/wire";

export interface Place {
  readonly x: number;
  readonly y: number;
  readonly anchor: "start" | "middle" | "end";
}

export interface Typing extends Place {
  readonly label: string;
  readonly value: string;
  send(entry: string): Promise<boolean>;
}

class TypingPlace {
  now = $state.raw<Typing | null>(null);
}

export const typing = new TypingPlace();

/** A dimension from the datum; the server works out what it means for the file. */
export function typeAt(dimension: Dimension, place: Place): void {
  const send = (entry: string): Promise<boolean> =>
    dimension.board === "" ? doing({ do: "wall", [dimension.axis === "x" ? "wide" : "high"]: inUnits(entry) }) :
    doing({ do: "figure", target: { what: "boards", boards: [dimension.board] }, axis: dimension.axis, now: dimension.value, entry: inUnits(entry) });
  typing.now = { ...place, label: `Place of ${dimension.of}; a length or arithmetic`, value: length(dimension.value, sight.units), send };
}

/** A clear opening of a bay; the first side that can gives. */
export function typeClearAt(at: Point, opening: Opening, place: Place): void {
  const send = (entry: string): Promise<boolean> => typeClear(at, opening, entry);
  typing.now = { ...place, label: `Clear ${opening.axis === "x" ? "across" : "up"}; a length or arithmetic`, value: length(opening.clear, sight.units), send };
}

/** A figure that is worked out of a board. */
export function typeDerivedAt(row: Row, board: string, place: Place): void {
  const of = derivedOf(row, board);
  if (!of) return;
  const ways = waysOf(of); // asked for now: once it is typed the job is another
  const send = async (entry: string): Promise<boolean> => typeDerived(of, entry, await ways);
  typing.now = { ...place, label: `${row.label} of ${board}; a figure or arithmetic`, value: figureToType(row), send };
}
