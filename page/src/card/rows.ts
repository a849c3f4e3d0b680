import { length, type Shown } from "../core/units";
import type { Row } from "../core/wire";

/** A value as it is read: a length in the units shown, everything else as the server said it. */
export function valueWords(row: Row, units: Shown): string {
  if (row.unit === "mm" && typeof row.value === "number") return length(row.value, units, units === "mm");
  return row.shown === "" ? "none" : row.shown;
}

/** The sentence under a value: where it comes from, and what it means. */
export function beside(row: Row): string {
  const from = row.from_ === "" ? "" : row.from_ === "default" ? "Default. " : `From ${row.from_}. `;
  return `${from}${row.sentence}`;
}
