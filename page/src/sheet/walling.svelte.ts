/** The wall and the stock, typed: each figure is saved as soon as it is left, and drawn. */
import { tick } from "svelte";
import { doing } from "../core/change";
import { inUnits } from "../core/derived";
import { job } from "../core/job.svelte";
import { sight } from "../core/sight.svelte";
import { length } from "../core/units";
import { drawing } from "./drawing.svelte";
import { fieldsOf } from "./sentences";
import { typed, typeIn, type Entries } from "./typed.svelte";

type WallField = "wide" | "high" | "thick" | "deep" | "studs" | "every";
const FIELDS: readonly WallField[] = ["wide", "high", "thick", "deep", "studs", "every"];

let stood: Entries = {};
const refused = new Set<WallField>();

/** What is known of it, as it would be typed. */
function known(): Entries {
  const wall = job.state?.wall;
  if (!wall) return {};
  return Object.fromEntries(FIELDS.map((field) => [field, wall[field] === null ? "" : length(wall[field], sight.units)]));
}

export async function beginWall(): Promise<void> {
  drawing.end();
  sight.lifted = false;
  sight.tool = "wall";
  refused.clear();
  stood = known();
  typed.begin(stood);
  await tick();
  typeIn(fieldsOf("wall").find(({ field }) => !typed.has(field))?.field ?? "wide");
}

const entryOf = (field: WallField): string => (typed.entries[field] ?? "").trim();

/** Save a blank that is left: no other, which may be half typed. Refused, it stays as it was typed. */
export async function saveWall(field: WallField): Promise<void> {
  const entry = entryOf(field);
  if (entry === (stood[field] ?? "").trim()) return;
  stood = { ...stood, [field]: entry };
  refused.delete(field);
  if (!(await doing({ do: "wall", [field]: inUnits(entry) }))) refused.add(field);
}

/** Save all blanks, those that were refused once more. */
async function saveAll(): Promise<boolean> {
  for (const field of refused) stood = { ...stood, [field]: undefined };
  for (const field of FIELDS) await saveWall(field);
  return refused.size === 0;
}

export const isOfTheWall = (field: string): field is WallField => FIELDS.some((one) => one === field);

export async function putWall(): Promise<void> {
  if (!(await saveAll()) || sight.tool !== "wall") return;
  drawing.end();
  document.getElementById("drawing")?.focus({ preventScroll: true });
}
