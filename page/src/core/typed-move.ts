import { typedLength, type LengthUnit } from "./units";
import type { Point } from "./viewport";

/** Two figures with a comma between them, across and up, in mm; null where they are none yet. */
export function typedPoint(text: string, shown: LengthUnit): Point | null {
  const [across, up, more] = text.split(/[,;]/).map((part) => typedLength(part, shown));
  return across == null || up == null || more !== undefined ? null : [across, up];
}

/**
 * What a move typed while dragging says, mm; null while it says nothing yet. Figures are in the units shown.
 * One figure goes the way the hand went, mostly across or mostly up; two are across and up.
 */
export function typedMove(text: string, raw: Point, along: Point | null, shown: LengthUnit): Point | null {
  const two = typedPoint(text, shown);
  if (two && along === null) return two;
  const far = typedLength(text, shown);
  if (far === null) return null;
  if (along !== null) {
    const way = raw[0] * along[0] + raw[1] * along[1] < 0 ? -1 : 1;
    return [along[0] * far * way, along[1] * far * way];
  }
  const across = Math.abs(raw[0]) >= Math.abs(raw[1]);
  const way = (across ? raw[0] : raw[1]) < 0 ? -1 : 1;
  return across ? [far * way, 0] : [0, far * way];
}
