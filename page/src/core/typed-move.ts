import type { Point } from "./viewport";

const ONE = /^\s*(-?\d+(?:\.\d*)?)\s*$/;
const TWO = /^\s*(-?\d+(?:\.\d*)?)\s*[,;]\s*(-?\d+(?:\.\d*)?)\s*$/;

/**
 * What a move typed while dragging says, mm; null while it says nothing yet.
 * One figure goes the way the hand went, mostly across or mostly up; two are across and up.
 */
export function typedMove(text: string, raw: Point, along: Point | null): Point | null {
  const two = TWO.exec(text);
  if (two && along === null) return [Number(two[1]), Number(two[2])];
  const one = ONE.exec(text);
  if (!one) return null;
  const far = Number(one[1]);
  if (along !== null) {
    const way = raw[0] * along[0] + raw[1] * along[1] < 0 ? -1 : 1;
    return [along[0] * far * way, along[1] * far * way];
  }
  const across = Math.abs(raw[0]) >= Math.abs(raw[1]);
  const way = (across ? raw[0] : raw[1]) < 0 ? -1 : 1;
  return across ? [far * way, 0] : [0, far * way];
}
