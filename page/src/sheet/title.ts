import type { Size } from "../core/size";
import { length, type LengthUnit } from "../core/units";
import type { State } from "../core/wire";
import { grouped, type Standing } from "../notes/looked";

interface Seen {
  readonly lifted: boolean;
  /** What the light says in place of the job's state; "" where it says nothing. */
  readonly light: string;
  readonly yaw: number;
  readonly pitch: number;
  readonly stands: Standing;
}

/** As much of a state as its words are made from. */
export interface Told extends Pick<State, "mistakes" | "stale" | "not_checked"> {
  readonly notes: readonly Pick<State["notes"][number], "severity">[];
  readonly drawing: { readonly boards: readonly unknown[] };
}

/** The state of the job in a few words: "1 stop, 2 warnings, 1 note"; all are counted, as beside the light's word. */
export function stateWords(state: Told | null, look: Seen): string {
  if (!state) return "";
  if (state.mistakes.length > 0) return "last good";
  if (look.lifted) return `lifted, ${Math.abs(look.yaw)}° by ${Math.abs(look.pitch)}°`;
  if (look.light !== "") return look.light;
  if (state.drawing.boards.length === 0) return "new";
  const stops = state.notes.filter((note) => note.severity === "stop").length;
  const looks = state.notes.filter((note) => note.severity === "warn").length;
  const words = [];
  if (stops > 0) words.push(stops === 1 ? "1 stop" : `${stops} stops`);
  if (looks > 0) words.push(looks === 1 ? "1 warning" : `${looks} warnings`);
  const others = state.notes.length - stops - looks;
  if (others > 0) words.push(others === 1 ? "1 note" : `${others} notes`);
  const open = grouped(state.not_checked).length;
  if (words.length > 0 && open > 0) words.push(`${open} not checked`);
  const found = words.join(", ");
  const behind = state.stale || look.stands === "lost" ? "not up to date" : look.stands === "stopped" ? "stopped" : look.stands === "answered" ? "" : "working";
  if (found !== "" || behind !== "") return [found, behind].filter((said) => said !== "").join("; ");
  return open > 0 ? `no stop; ${open} not checked` : "nothing found";
}

/** When the file was last written, by this machine's clock, and the state that papers carry. */
export function savedWords(saved: State["saved"]): string {
  if (saved.says !== "") return saved.says;
  const at = new Date(saved.at);
  const time = Number.isNaN(at.getTime()) ? "" : `${String(at.getHours()).padStart(2, "0")}:${String(at.getMinutes()).padStart(2, "0")}, `;
  return `${time}as ${saved.state.slice(0, 4)}`;
}

/** Over all, with the mass where each board's is known: "2460 × 1500 × 340; 106 kg". The title block says the unit, no figure does. */
export function sizeWords(size: Size | null, units: LengthUnit, rest: Pick<State["rest"], "masses" | "stands">, boards: readonly string[]): string {
  if (!size) return "";
  const sides = [size.right - size.left, size.head - size.foot, size.deep].map((one) => length(one, units)).join(" × ");
  const known = new Map(rest.masses);
  const masses = boards.map((name) => known.get(name));
  if (rest.stands !== "answered" || masses.some((one) => one === undefined)) return `${sides} ${units}`;
  return `${sides} ${units}; ${masses.reduce<number>((sum, one) => sum + (one ?? 0), 0).toFixed(0)} kg`;
}
