/** A word of the bars is explained where a hand or the keyboard rests on it, or a finger stays: by its `data-why`. */
import { told } from "../card/told.svelte";

const LONG_MS = 500; // a finger that stays so long asks what it is, and does not press
let waiting: ReturnType<typeof setTimeout> | undefined;
let asked = false;

function wordAt(target: EventTarget | null): string {
  return target instanceof Element ? (target.closest("[data-why]")?.getAttribute("data-why") ?? "") : "";
}

function byKeyboard(target: EventTarget | null): boolean {
  return target instanceof Element && target.matches(":focus-visible");
}

export function restedOn(event: PointerEvent | FocusEvent): void {
  if (event instanceof PointerEvent ? event.pointerType === "touch" : !byKeyboard(event.target)) return; // a tap is a press
  told.word = wordAt(event.target);
}

export function touched(event: PointerEvent): void {
  clearTimeout(waiting);
  asked = false;
  if (event.pointerType !== "touch") return;
  const word = wordAt(event.target);
  told.word = "";
  if (word === "") return;
  waiting = setTimeout(() => {
    told.word = word;
    asked = true;
  }, LONG_MS);
}

export function lifted(): void {
  clearTimeout(waiting);
}

/** What was only asked about is not done. */
export function pressedAfter(event: Event): void {
  if (!asked) return;
  asked = false;
  event.preventDefault();
  event.stopPropagation();
}
