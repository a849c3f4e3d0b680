/** Laying out a running dimension: figures stand without touching, on a line in px; none is left out in silence. */
import { rowsOf } from "../core/rows";
import type { Dimension } from "../core/wire";

export interface Figure {
  readonly at: number;
  readonly value: number;
  readonly of: readonly string[];
  readonly dimension: Dimension;
  /** How many rows farther out it stands; null where there is no room for it, and it is counted. */
  readonly row: number | null;
}

const SAME = 0.05; // mm: closer than a figure can be held

/**
 * One figure a value; the outermost first, then the rest: none moves when a board is chosen. What the chosen board would
 * have no room for stands in a row below all others.
 * @param place px of a value along the line.
 * @param wide px that a figure needs along the line.
 * @param most rows that there are.
 */
export function figures(all: readonly Dimension[], place: (value: number) => number, wide: (value: number) => number, chosen: ReadonlySet<string>, most = 1): Figure[] {
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
  const first = [...values].sort((one, other) => Number(other.value === outer) - Number(one.value === outer));
  const rows = rowsOf(first.map(({ value }) => ({ at: place(value), wide: wide(value) })), most);
  const rowOf = new Map(first.map(({ value }, index) => [value, rows[index] ?? null]));
  const lacking = values.filter((entry) => rowOf.get(entry.value) === null && entry.of.some((name) => chosen.has(name)));
  const below = rowsOf(lacking.map(({ value }) => ({ at: place(value), wide: wide(value) })), 1);
  lacking.forEach(({ value }, index) => rowOf.set(value, below[index] === null ? null : most));
  return values.map((entry) => ({ ...entry, at: place(entry.value), row: rowOf.get(entry.value) ?? null }));
}

/** A slim filled arrowhead with its tip at (x, y), pointing along the unit vector. */
export function arrow(x: number, y: number, along: readonly [number, number]): string {
  const [dx, dy] = along;
  const [bx, by] = [x - 9 * dx, y - 9 * dy];
  return `M${x} ${y}L${bx - 1.7 * dy} ${by + 1.7 * dx}L${bx + 1.7 * dy} ${by - 1.7 * dx}z`;
}
