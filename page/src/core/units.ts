/** How figures are shown. Lengths arrive in mm; the switch between mm and inches changes nothing but the sight. */
export type Shown = "mm" | "in";

const MM_IN_INCH = 25.4;
const SIXTY_FOURTHS = 64;

/** A length as it can be held: 0.1 mm, trailing ".0" only where `fixed`; inches to the nearest 1/64. */
export function length(mm: number, shown: Shown, fixed = false): string {
  return shown === "in" ? inches(mm) : millimetres(mm, fixed);
}

function millimetres(mm: number, fixed: boolean): string {
  const text = (Math.round(mm * 10) / 10 + 0).toFixed(1);
  return fixed || !text.endsWith(".0") ? text : text.slice(0, -2);
}

/** Whole inches and a fraction in lowest terms: `23 5/8`. The figure is rounded, so it is for the eye only. */
export function inches(mm: number): string {
  const parts = Math.round((Math.abs(mm) / MM_IN_INCH) * SIXTY_FOURTHS);
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

export function degrees(value: number): string {
  return `${(Math.round(value * 100) / 100 + 0).toFixed(2)}°`;
}
