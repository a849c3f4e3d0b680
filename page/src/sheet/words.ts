import { length, type LengthUnit } from "../core/units";
import type { Point } from "../core/viewport";

const NOTHING = 0.0005;

/** A move as a maker says it: "12 right, 3 up". */
export function moveWords([x, y]: Point, units: LengthUnit): string {
  const words = [];
  if (Math.abs(x) > NOTHING) words.push(`${length(Math.abs(x), units)} ${x > 0 ? "right" : "left"}`);
  if (Math.abs(y) > NOTHING) words.push(`${length(Math.abs(y), units)} ${y > 0 ? "up" : "down"}`);
  return words.join(", ");
}
