import { toScreen, type Point, type Viewport } from "../core/viewport";

/** Tenths of a px are enough for the eye, and keep the drawing short. */
const tenth = (value: number): number => Math.round(value * 10) / 10;

export function screenPath(points: readonly Point[], view: Viewport, closed: boolean): string {
  const drawn = points.map((point) => toScreen(view, point)).map(([x, y]) => `${tenth(x)} ${tenth(y)}`);
  return drawn.length === 0 ? "" : `M${drawn.join("L")}${closed ? "z" : ""}`;
}

/** Quiet grain along a strip from (0, 0) to (long, wide): short lines in rows, the same for the same name. */
export function grain(name: string, long: number, wide: number, apart = 9): string {
  let seed = [...name].reduce((sum, letter) => (sum * 31 + letter.charCodeAt(0)) >>> 0, 7);
  const next = (): number => {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    return seed / 4294967296;
  };
  const rows = Math.max(1, Math.floor(wide / apart));
  const drawn: string[] = [];
  for (let row = 0; row < rows; row += 1) {
    const y = tenth(((row + 0.5) * wide) / rows);
    for (let x = next() * 90; x < long; x += 60 + next() * 120) {
      const run = Math.min(long - x - 2, 40 + next() * 130);
      if (run > 8) drawn.push(`M${tenth(x)} ${y}h${tenth(run)}`);
      x += Math.max(run, 0);
    }
  }
  return drawn.join("");
}
