/** Laying out a running dimension: which figures stand without touching, on a line in px. */
import type { Along, BoardShown, Dimension, JointShown } from "../core/wire";

export interface Figure {
  readonly at: number;
  readonly value: number;
  readonly of: readonly string[];
  readonly dimension: Dimension;
  readonly said: boolean;
}

const SAME = 0.05; // mm: closer than a figure can be held

/**
 * One figure a value; those of the chosen board first, then the outermost, then the rest where there is room.
 * @param place px of a value along the line.
 * @param room px that a figure needs along the line.
 */
export function figures(all: readonly Dimension[], place: (value: number) => number, room: number, chosen: ReadonlySet<string>): Figure[] {
  const sorted = [...all].sort((one, other) => one.value - other.value);
  const values: { value: number; of: string[]; dimension: Dimension }[] = [];
  for (const dimension of sorted) {
    const last = values.at(-1);
    if (last !== undefined && Math.abs(last.value - dimension.value) < SAME) {
      last.of.push(dimension.board);
      if (chosen.has(dimension.board)) last.dimension = dimension;
    } else values.push({ value: dimension.value, of: [dimension.board], dimension });
  }
  const outer = Math.max(...values.map((entry) => entry.value));
  const rank = (entry: { value: number; of: string[] }): number =>
    entry.of.some((name) => chosen.has(name)) ? 0 : entry.value === outer ? 1 : 2;
  const taken: number[] = [];
  const said = new Set<number>();
  for (const entry of [...values].sort((one, other) => rank(one) - rank(other))) {
    const at = place(entry.value);
    if (taken.some((other) => Math.abs(other - at) < room)) continue;
    taken.push(at);
    said.add(entry.value);
  }
  return values.map((entry) => ({ ...entry, at: place(entry.value), said: said.has(entry.value) }));
}

/** A slim filled arrowhead with its tip at (x, y), pointing along the unit vector. */
export function arrow(x: number, y: number, along: readonly [number, number]): string {
  const [dx, dy] = along;
  const [bx, by] = [x - 9 * dx, y - 9 * dy];
  return `M${x} ${y}L${bx - 1.7 * dy} ${by + 1.7 * dx}L${bx + 1.7 * dy} ${by - 1.7 * dx}z`;
}

/** While a hand drags, the card is of before: the figures along the board are then taken from the previewed joints. */
export function previewed(board: BoardShown, joints: readonly JointShown[], foot: readonly [number, number]): Along[] {
  const start: [number, number] = [foot[0], foot[1]];
  const far = (at: readonly [number, number]): number => Math.hypot(at[0] - foot[0], at[1] - foot[1]);
  const head = far(board.line[0]) > far(board.line[1]) ? board.line[0] : board.line[1];
  const ends = joints.filter((joint) => joint.also.length === 0).map((joint) => ({ end: joint.at, joint: joint.boards, beside: "" }));
  return [...ends, { end: head, joint: null, beside: "" }].map((one) => ({ ...one, start, value: far(one.end) })).sort((one, other) => one.value - other.value);
}
