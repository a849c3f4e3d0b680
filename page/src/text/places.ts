/** Which table of the text a line stands in, and where a table begins: by counting its headers. */

const HEADER = /^\s*(?:\[\s*([^[\],]+?)\s*\]|\[\[\s*([^[\],]+?)\s*\]\])\s*(?:#.*)?$/;

export interface Table {
  readonly name: string;
  /** Among tables of the same name, from 0. */
  readonly index: number;
  /** Lines counted from 1, the last one included. */
  readonly first: number;
  readonly last: number;
}

export function tables(text: string): Table[] {
  const all: { name: string; index: number; first: number; last: number }[] = [];
  const counts = new Map<string, number>();
  const lines = text.split("\n");
  lines.forEach((line, at) => {
    const found = HEADER.exec(line);
    const name = found?.[1] ?? found?.[2];
    if (name === undefined) return;
    const before = all.at(-1);
    if (before) before.last = at;
    const index = counts.get(name) ?? 0;
    counts.set(name, index + 1);
    all.push({ name, index, first: at + 1, last: lines.length });
  });
  return all;
}

/** The table that a path of the job file leads into, such as `["board", 3, "line"]`. */
export function tableOf(all: readonly Table[], path: readonly (string | number)[]): Table | undefined {
  const [name, index] = path;
  return all.find((table) => table.name === name && table.index === (typeof index === "number" ? index : 0));
}

export function tableAt(all: readonly Table[], line: number): Table | undefined {
  return all.find((table) => line >= table.first && line <= table.last);
}

const NAME = /^\s*name\s*=\s*(?:"([^"]*)"|'([^']*)')/m;

/** The boards as the text calls them: one that is longer than its stock is drawn as its members, and is one board to the text. */
export function boardNames(text: string, boards: readonly { readonly name: string; readonly path: readonly (string | number)[]; readonly row: boolean; readonly frame: string }[]): string[] {
  const [all, lines] = [tables(text), text.split("\n")];
  const named = boards.map((board) => {
    const table = board.row || board.frame !== "" ? undefined : tableOf(all, board.path);
    const found = table && NAME.exec(lines.slice(table.first - 1, table.last).join("\n"));
    return found?.[1] ?? found?.[2] ?? board.name;
  });
  return [...new Set(named)];
}
