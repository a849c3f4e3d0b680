/** All lights: a folder here is a light. Only `main.ts` asks for them; all else goes by what they say of themselves. */
import type { Light } from "../core/light";

const found = import.meta.glob<{ light: Light }>("./*/index.ts", { eager: true });

export const LIGHTS: readonly Light[] = Object.values(found)
  .map((module) => module.light)
  .sort((one, other) => one.order - other.order || one.name.localeCompare(other.name));
