/** All lights: those that stand in a folder here, and those still to come with what they wait for. */
import type { Light } from "./light";

const found = import.meta.glob<{ light: Light }>("./*/index.ts", { eager: true });

const FIRST = "set-out";

const TO_COME: readonly Light[] = [
  { name: "dry-fit", word: "Dry fit", order: 40, waits: "Dry fit waits for the study of how each slot may bind." },
  { name: "hold", word: "Hold", order: 50, waits: "Hold waits for the study of loads and sag." },
  { name: "timber", word: "Timber", order: 60, waits: "Timber waits for the plan of panels and cost." },
  { name: "bench", word: "Bench", order: 70, waits: "Bench waits for the set-up sheets." },
  { name: "finish", word: "Finish", order: 80, waits: "Finish waits for areas and masks." },
  { name: "site", word: "Site", order: 90, waits: "Site waits for the map of the wall." },
  { name: "price", word: "Price", order: 100, waits: "Price waits for cost by part." },
];

export function lightsOf(here: readonly Light[], later: readonly Light[]): readonly Light[] {
  const names = new Set(here.map((light) => light.name));
  return [...here, ...later.filter((light) => !names.has(light.name))].sort((one, other) => one.order - other.order);
}

/** The light that a note belongs to, by the study that found it. */
export function lightOf(study: string, lights: readonly Light[]): string {
  return lights.find((light) => light.waits === undefined && light.studies?.includes(study))?.name ?? FIRST;
}

export const LIGHTS = lightsOf(
  Object.values(found).map((module) => module.light),
  TO_COME,
);
