import { fine, typedLength, type LengthUnit } from "../core/units";
import type { Card, Row } from "../core/wire";

/** A value as it is read: a length in the units shown, everything else as the server said it. */
export function valueWords(row: Row, units: LengthUnit): string {
  if (row.unit === "mm" && typeof row.value === "number") return fine(row.value, units);
  if (row.unit === "deg") return `${row.shown}°`;
  return row.shown === "" ? "left out" : row.shown;
}

/** What stands behind a figure: the unit of a length in mm; fractions of an inch and degrees say it themselves. */
export function unitWord(row: Row, units: LengthUnit): string {
  return row.unit === "mm" && row.value !== null && units === "mm" ? "\u00a0mm" : "";
}

const SAYS_ITSELF: Readonly<Record<string, string>> = { default: "Default. ", settled: "Settled. ", "worked out": "Worked out. " };

/** The sentence under a value: where it comes from, and what it means. */
export function beside(row: Row): string {
  const itself = SAYS_ITSELF[row.from_] ?? `From ${row.from_}. `;
  const from = row.from_ === "" || row.derived !== "" ? "" : itself;
  return `${from}${row.sentence}`;
}

/** What stands in the box before anything is typed: as the file has it, or the figure as it is seen in other units. */
export function toType(row: Row, units: LengthUnit, job: LengthUnit): string {
  const written = asWritten(row) || row.written.replace(/^(["'])(.*)\1$/, "$2");
  if (row.unit === "mm" && typeof row.value === "number" && (written === "" || (units !== job && typedLength(written, job) !== null))) return fine(row.value, units);
  return written || row.shown;
}

/** The value as the file has it, where that says more than the figure: arithmetic, without its quotes. */
export function asWritten(row: Row): string {
  const plain = row.written.replace(/^(["'])(.*)\1$/, "$2");
  return row.input === "length" && /[a-z*+/(]/i.test(plain) ? plain : "";
}

/** Of the job's tables on its card, and of the keys of a board, in the order in which they are thought of. */
const PLACES = ["job", "measures", "wall", "count", "row clear", "row centres", "row thick", "kind", "front", "line", "points", "rake", "length", "clear", "depth", "ends", "timber"];

interface Groups {
  readonly own: Row[];
  /** Places of other boards along it. */
  readonly along: Row[];
  readonly left: Row[];
}

/** What holds of it first, places before sizes; then what meets it, then what was left at its default. A joint's options stay together. */
export function grouped(card: Card): Groups {
  const rows = card.rows.filter((row) => row.key.at(-1) !== "name");
  if (card.what === "joint") return { own: rows, along: [], left: [] };
  const rank = (row: Row): number => {
    const at = PLACES.indexOf(String(row.key[0]));
    return at < 0 ? PLACES.length : at;
  };
  const along = rows.filter((row) => row.derived === "along");
  const own = rows.filter((row) => (row.written !== "" || row.derived !== "") && row.derived !== "along").sort((one, other) => rank(one) - rank(other));
  const left = rows.filter((row) => row.written === "" && row.derived === "").sort((one, other) => rank(one) - rank(other));
  return own.length === 0 ? { own: left, along, left: [] } : { own, along, left };
}
