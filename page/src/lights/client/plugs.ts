/** What is shown of plugs: those that somebody may see, once it is known which; until then, that it is not. */
import type { Told } from "../../core/answers.svelte";
import type { Results } from "../../core/wire";

export type Mouth = Results["driving"]["mouths"][number];

export interface PlugsShown {
  /** Null while it is not known of this drawing which can be seen. */
  readonly plugs: readonly Mouth[] | null;
  /** What the client's picture lacks, in words; "" where nothing. */
  readonly lacks: string;
}

const STILL = "it is still being worked out";
const ANEW = "it is worked out anew after the last change";

/** @param drawn revision of the drawing. */
export function plugsOf({ result, why, stale, revision }: Told<"driving">, drawn: number): PlugsShown {
  if (result && !stale && revision === drawn) return { plugs: result.mouths.filter((one) => one.what === "plug" && !one.covered), lacks: "" };
  return { plugs: null, lacks: `Which plugs can be seen is not known: ${why !== "" ? why : result ? ANEW : STILL}. Their holes are drawn open.` };
}
