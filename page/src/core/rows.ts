/** Laying out figures that stand along a line: one that would lie on another goes to a row farther out. */
export interface Span {
  /** px: the middle of the figure along its line, and how much of the line it takes. */
  readonly at: number;
  readonly wide: number;
}

/** The row of each figure, the nearest first; null for one that has no room in `most` rows: those are to be counted. */
export function rowsOf(spans: readonly Span[], most: number, apart = 6): (number | null)[] {
  const rows: { from: number; to: number }[][] = [];
  return spans.map(({ at, wide }) => {
    const [from, to] = [at - wide / 2 - apart / 2, at + wide / 2 + apart / 2];
    for (let row = 0; row < most; row += 1) {
      const taken = rows[row] ?? (rows[row] = []);
      if (taken.some((one) => one.from < to && from < one.to)) continue;
      taken.push({ from, to });
      return row;
    }
    return null;
  });
}

/** Places pushed apart until none is nearer than `least` to the next, each as near its own as can be; in their order. */
export function spread(wanted: readonly number[], least: number): number[] {
  const order = wanted.map((at, index) => ({ at, index })).sort((one, other) => one.at - other.at);
  const blocks: { sum: number; count: number; from: number }[] = [];
  order.forEach(({ at }, position) => {
    let block = { sum: at - position * least, count: 1, from: position };
    for (let last = blocks.at(-1); last && last.sum / last.count > block.sum / block.count; last = blocks.at(-1)) {
      blocks.pop();
      block = { sum: last.sum + block.sum, count: last.count + block.count, from: last.from };
    }
    blocks.push(block);
  });
  const found: number[] = [...wanted];
  for (const block of blocks) {
    for (let position = block.from; position < block.from + block.count; position += 1) {
      const index = order[position]?.index;
      if (index !== undefined) found[index] = block.sum / block.count + position * least;
    }
  }
  return found;
}
