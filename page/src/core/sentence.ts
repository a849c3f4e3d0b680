import type { Mistake } from "./wire";

/** What is wrong and what would be right, as one sentence with one full stop. */
export function sentence(says: string, remedy: string): string {
  const whole = remedy === "" ? says : `${says}; ${remedy}`;
  return /[.?!]$/.test(whole) ? whole : `${whole}.`;
}

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** What one press puts right in a line: from where to where, and what belongs there. */
export interface Mend {
  readonly from: number;
  readonly to: number;
  readonly name: string;
}

/**
 * Where in its line a mistake has the name that was read wrong; null where no name is meant, or it is not sure which
 * of several places is the wrong one: a name that only begins like it is another.
 */
export function mend(line: string, mistake: Pick<Mistake, "says" | "remedy" | "column" | "end_column">): Mend | null {
  const names = meant(mistake.says, mistake.remedy);
  if (names === null) return null;
  const escaped = names.wrong.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
  const word = new RegExp(`(?<![\\p{L}\\p{N}_])${escaped}(?![\\p{L}\\p{N}_])`, "gu");
  const all = [...line.matchAll(word)].map((found) => ({ from: found.index, to: found.index + names.wrong.length, name: names.right }));
  const told = all.filter((one) => one.from >= mistake.column && one.to <= mistake.end_column);
  const [only, more] = told.length > 0 && told.length === all.length ? [told[0], undefined] : all;
  return only !== undefined && more === undefined ? only : null;
}

/** A name read wrong, and the one that is meant: what can be put right by one press. */
export function meant(says: string, remedy: string): { wrong: string; right: string } | null {
  const wrong = /"([^"]+)"/.exec(says)?.[1];
  const right = /^did you mean "?(.+?)"?\?$/.exec(remedy)?.[1];
  return wrong !== undefined && right !== undefined ? { wrong, right } : null;
}
