/** The joint marks: the joint's own section drawn small, on a 16 grid, front edge at the bottom. */
export interface Mark {
  readonly lines?: string;
  readonly solid?: string;
  /** A thick line: the floor of a stopped housing. */
  readonly floor?: string;
  readonly discs?: readonly { readonly r: number; readonly solid: boolean }[];
}

const HOUSING = "M1 4.5h4v6h6v-6h4";

export const MARKS: Readonly<Record<string, Mark>> = {
  "cross halving": { lines: "M2.75 2.5h10.5v4.3H2.75z", solid: "M2.75 9.2h10.5v4.3H2.75z" },
  housing: { lines: HOUSING },
  "stopped housing": { lines: HOUSING, floor: "M5 10h6" },
  "sliding dovetail": { lines: "M1 4.5h5L4 11.5h8L10 4.5h5" },
  mitre: { lines: "M3 13L13 3" },
  "keyed mitre": { lines: "M3 13L13 3M5.2 7.6l3.2 3.2M7.6 5.2l3.2 3.2" },
  butt: { lines: "M1 5h14M5.5 5v8M10.5 5v8" },
  rebate: { lines: "M1 4.5h8v6h6" },
  "finger joint": { lines: "M1 4.5h3v6h4v-6h4v6h3" },
  splice: { lines: "M1 4.5h4.5l5 7H15" },
  notch: { lines: "M1 3.5h9v6h5" },
  "pins in slots": { discs: [{ r: 4, solid: false }] },
  dowel: { discs: [{ r: 3, solid: true }] },
  "long screw": { lines: "M4.6 4.6l6.8 6.8M11.4 4.6l-6.8 6.8", discs: [{ r: 5.2, solid: false }] },
};

const UNKNOWN: Mark = { discs: [{ r: 2, solid: false }] };

export function markOf(word: string): Mark {
  return MARKS[word] ?? UNKNOWN;
}
