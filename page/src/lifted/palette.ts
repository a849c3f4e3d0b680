/** The page's colours, read from its style sheet, so that model and drawing are one in day and evening. */
import type { Tones } from "./wood";

export interface Palette {
  readonly wood: Tones;
  readonly chosen: Tones;
  readonly tint: string;
  readonly ink: string;
  readonly blue: string;
  readonly thin: string;
  readonly sheet: string;
  readonly desk: string;
  readonly shade: string;
}

export function palette(): Palette {
  const style = getComputedStyle(document.documentElement);
  const tone = (name: string): string => style.getPropertyValue(`--${name}`).trim();
  const both = { section: tone("wood"), hatch: tone("ink2"), tinting: tone("ochre") };
  return {
    wood: { front: tone("wood"), top: tone("wood-top"), side: tone("wood-left"), under: tone("wood-under"), grain: tone("grain"), ...both },
    chosen: { front: tone("chosen"), top: tone("chosen-side"), side: tone("chosen-deep"), under: tone("chosen-deep"), grain: tone("chosen-grain"), ...both },
    tint: tone("ochre-fill"), ink: tone("ink"), blue: tone("blue"), thin: tone("thin"), sheet: tone("sheet"), desk: tone("desk"), shade: tone("shade"),
  };
}
