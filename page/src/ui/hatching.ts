import { hatchApart } from "../core/shown";

/** The fill that hatches a tint; `Hatching.svelte` must stand in the same drawing. */
export function hatching(share: number): string {
  return `url(#hatching-${hatchApart(share)})`;
}

/** Px between the lines of each hatching there is. */
export const HATCHINGS: readonly number[] = [...new Set([0, 0.25, 0.5, 0.75, 1].map(hatchApart))];
