import type { Card, Row } from "../../core/wire";

export const HEADS: Readonly<Record<string, string>> = {
  job: "The job", wall: "The wall", climate: "Climate", site: "The site", load: "On the boards", finish: "Finish", timber: "Timber", measures: "Measures", joints: "Joints",
};
const ORDER = ["job", "wall", "climate", "site", "load", "measures", "timber", "finish"];

export interface Section {
  readonly name: string;
  readonly rows: readonly Row[];
}

/** The job's rows by the table they stand in, with the table's name taken off their labels. */
export function sections(card: Card): Section[] {
  const by = new Map<string, Row[]>();
  for (const row of card.rows) {
    const name = String(row.key[0]);
    const label = name === "timber" ? row.label : row.label.replace(/^[^:]*: /, "");
    by.set(name, [...(by.get(name) ?? []), { ...row, label }]);
  }
  return ORDER.flatMap((name) => {
    const rows = by.get(name);
    return rows ? [{ name, rows }] : [];
  });
}
