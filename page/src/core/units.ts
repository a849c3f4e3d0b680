/** How figures are shown. Lengths arrive in mm; the switch between mm and inches changes nothing but the sight. */
export type LengthUnit = "mm" | "in";

const MM_IN_INCH = 25.4;
const SIXTY_FOURTHS = 64;
const COARSE = 0.02; // of a length: a fraction that is further off misleads

/** A length as it can be held: 0.1 mm, trailing ".0" only where `fixed`; inches to the nearest 1/64. */
export function length(mm: number, shown: LengthUnit, fixed = false): string {
  return shown === "in" ? inches(mm) : millimetres(mm, fixed);
}

/**
 * A length as it was meant, for the card: play and films to the hundredth that they have, and in inches by decimals where
 * a sixty-fourth would be another size.
 */
export function fine(mm: number, shown: LengthUnit): string {
  if (shown === "mm") return isWhole(mm * 100) && !isWhole(mm * 10) ? mm.toFixed(2) : millimetres(mm, true);
  const value = mm / MM_IN_INCH;
  const near = Math.round(value * SIXTY_FOURTHS) / SIXTY_FOURTHS;
  return Math.abs(near - value) > COARSE * Math.abs(value) ? value.toFixed(3) : inches(mm);
}

const isWhole = (value: number): boolean => Math.abs(value - Math.round(value)) < 1e-6;

function millimetres(mm: number, fixed: boolean): string {
  const text = (rounded(mm, 0.1) + 0).toFixed(1);
  return fixed || !text.endsWith(".0") ? text : text.slice(0, -2);
}

/** The nearest multiple of a step, halves away from zero: as the sheets round (`lengths.rounded`). */
function rounded(value: number, step: number): number {
  const count = Math.floor(Math.abs(value) / step + 0.5 + 1e-9);
  return (value < 0 ? -count : count) * step + 0;
}

/** A length as it is measured between faces: to 0.05, as widths are printed, trailing zeros left out; inches as on the card. */
export function measured(mm: number, shown: LengthUnit): string {
  return shown === "in" ? fine(mm, shown) : `${Number(rounded(mm, 0.05).toFixed(2))}`;
}

/** Whole inches and a fraction in lowest terms: `23 5/8`. The figure is rounded, so it is for the eye only. */
export function inches(mm: number): string {
  const parts = Math.floor((Math.abs(mm) / MM_IN_INCH) * SIXTY_FOURTHS + 0.5 + 1e-9);
  const sign = mm < 0 && parts > 0 ? "-" : "";
  const whole = Math.floor(parts / SIXTY_FOURTHS);
  let top = parts % SIXTY_FOURTHS;
  let bottom = SIXTY_FOURTHS;
  while (top > 0 && top % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  if (top === 0) return `${sign}${whole}`;
  return whole === 0 ? `${sign}${top}/${bottom}` : `${sign}${whole} ${top}/${bottom}`;
}

/**
 * A figure as a hand types it, in mm: decimals, and of inches also whole and fraction, `23 5/8`. Null where it is no bare
 * figure: with a unit behind it, or arithmetic, it is the server's to read.
 */
export function typedLength(text: string, shown: LengthUnit): number | null {
  const found = /^\s*(-?)(?:(\d+(?:\.\d*)?|\.\d+)|(?:(\d+)\s+)?(\d+)\/(\d+))\s*$/.exec(text);
  if (!found) return null;
  const [, sign, plain, whole, top, bottom] = found;
  if (plain === undefined && (shown === "mm" || Number(bottom) === 0)) return null;
  const size = plain !== undefined ? Number(plain) : Number(whole ?? 0) + Number(top) / Number(bottom);
  return (sign === "-" ? -size : size) * (shown === "in" ? MM_IN_INCH : 1);
}

/**
 * A bare figure gets its unit where other units are shown than the job's, in which the server reads it, and where it is
 * a whole and a fraction: the job file has `23 5/8 in`, never without.
 */
export function withUnit(entry: string, shown: LengthUnit, job: LengthUnit): string {
  if (typedLength(entry, shown) === null) return entry;
  return shown !== job || entry.includes("/") ? `${entry.trim()} ${shown}` : entry;
}

export function degrees(value: number): string {
  return `${(Math.round(value * 100) / 100 + 0).toFixed(2)}°`;
}
