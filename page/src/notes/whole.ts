/** A list in too little room is cut between its rows, never through a line; what is out of sight is counted. */
export interface Row {
  /** px from the head of the list. */
  readonly top: number;
  readonly bottom: number;
  /** Where its lines of words end, px: a row that is higher than all the room is cut after one of them, once it stands at the head. */
  readonly lines: readonly number[];
  /** It is counted where it is out of sight. */
  readonly counts: boolean;
}

export interface WholeRows {
  /** Where what is seen ends, px from the head of the list. */
  readonly end: number;
  /** Rows that are not seen whole, before or behind. */
  readonly more: number;
  /** Where the next rows begin; the head again after the last. */
  readonly next: number;
}

const NEAR = 1; // px: places are rounded to the screen's

/**
 * What is seen whole of the rows.
 * @param from px from the head of the list, where the room begins
 * @param room px
 */
export function wholeRows(rows: readonly Row[], from: number, room: number): WholeRows {
  const fits = (at: number): boolean => at <= from + room + NEAR;
  const all = rows.flatMap(({ top, bottom, lines }) => (bottom - top > room + NEAR && top <= from + NEAR ? [...lines, bottom] : [bottom])).filter((at) => at > from + NEAR);
  const end = Math.max(from, ...all.filter(fits));
  const hidden = rows.filter(({ top, bottom, counts }) => counts && (top < from - NEAR || bottom > end + NEAR));
  return { end, more: hidden.length, next: all.some((at) => !fits(at)) && end > from ? end : 0 };
}

/** The beginning of a row, or of a line in a row that is higher than the room, that is nearest to where the hand left the list. */
export function nearestStart(rows: readonly Row[], at: number, room: number): number {
  const starts = rows.flatMap(({ top, bottom, lines }) => (bottom - top <= room + NEAR ? [top] : [top, ...lines.slice(0, -1)]));
  return starts.reduce((best, start) => (Math.abs(start - at) < Math.abs(best - at) ? start : best), 0);
}
