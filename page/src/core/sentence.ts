/** What is wrong and what would be right, as one sentence with one full stop. */
export function sentence(says: string, remedy: string): string {
  const whole = remedy === "" ? says : `${says}; ${remedy}`;
  return /[.?!]$/.test(whole) ? whole : `${whole}.`;
}

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A name read wrong, and the one that is meant: what can be put right by one press. */
export function meant(says: string, remedy: string): { wrong: string; right: string } | null {
  const wrong = /"([^"]+)"/.exec(says)?.[1];
  const right = /^did you mean "?(.+?)"?\?$/.exec(remedy)?.[1];
  return wrong !== undefined && right !== undefined ? { wrong, right } : null;
}
