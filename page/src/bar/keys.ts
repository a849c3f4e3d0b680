/** Everything on the drawing by keyboard. Keys typed into a field stay there. */
import { tick } from "svelte";
import { lift, shownLights, toggleEvening, waitsFor } from "./ways";
import { mirrorChosen } from "../card/acts";
import { told } from "../card/told.svelte";
import { drawing } from "../sheet/drawing.svelte";
import { ACTS, can, put } from "../sheet/hand";
import { typed, typeIn } from "../sheet/typed.svelte";
import { chosenBay } from "../core/bays.svelte";
import { redo, undo } from "../core/change";
import { drag } from "../core/drag.svelte";
import { job } from "../core/job.svelte";
import { lights } from "../core/lights.svelte";
import { nudge, nudgeSettled } from "../core/nudge";
import { sight } from "../core/sight.svelte";
import { panned, toJob, zoomed, type Point } from "../core/viewport";

const [PAN, ZOOM] = [60, 1.25];
/** How far an arrow key goes while drawing, mm: by itself, with Shift, with Alt. */
const STEP = { mm: [10, 100, 1], in: [25.4, 25.4 * 6, 25.4 / 16] } as const;
/** How far an arrow key moves what is chosen, mm: by itself, with Shift, with Alt. */
const NUDGE = { mm: [1, 10, 0.1], in: [25.4 / 16, 25.4, 25.4 / 32] } as const;
const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1],
};

function inField(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest("input, select, textarea, [contenteditable], .editor") !== null;
}

export function keyDown(event: KeyboardEvent): void {
  if (event.key === "Alt") drag.free = true;
  if (inField(event.target)) return;
  if (drag.now !== null && whileDragging(event)) return event.preventDefault();
  if (event.ctrlKey || event.metaKey) return withControl(event);
  if (sight.tool !== "hand" && whileDrawing(event)) return event.preventDefault();
  if (pressed(event)) event.preventDefault();
}

export function keyUp(event: KeyboardEvent): void {
  if (event.key === "Alt") drag.free = false;
}

function whileDragging(event: KeyboardEvent): boolean {
  if (event.key === "Escape") drag.drop();
  else if (event.key === "Enter") void drag.release();
  else if (/^F[1-9]$/.test(event.key)) drag.choose(Number(event.key.slice(1)) - 1);
  else if (typing(event, drag.now?.typed ?? "")) drag.type(event.key);
  else return false;
  return true;
}

/** Whether a key is part of a figure: of inches also its fraction, and the space before that. */
function typing(event: KeyboardEvent, typed: string): boolean {
  if (event.ctrlKey || event.metaKey) return false;
  return /^[\d.,;-]$/.test(event.key) || event.key === "Backspace" || (sight.units === "in" && (event.key === "/" || (event.key === " " && typed !== "")));
}

/** Drawing without a pointer: figures go into the sentence's blanks; or corners are gone to by arrows and set by space. */
function whileDrawing(event: KeyboardEvent): boolean {
  const way = sight.tool === "wall" || sight.tool === "lean" ? undefined : ARROWS[event.key];
  const on = event.target instanceof Element && event.target.closest("button, a, summary, [role=button]") !== null;
  if (way) {
    const [one, ten, tenth] = STEP[sight.units];
    const far = event.shiftKey ? ten : event.altKey ? tenth : one;
    drawing.step([way[0] * far, way[1] * far], middle());
  } else if (/^[\d.-]$/.test(event.key) && !event.ctrlKey && !event.metaKey) {
    const next = typed.next;
    if (next === undefined || !typeIn(next)) return false;
    typed.write(next, event.key);
    drawing.settle();
  } else if (event.key === " " && !on) drawing.set();
  else if (event.key === "Enter" && !on) put();
  else return false;
  return true;
}

/** The whole mm, or inch, in the middle of what is seen. */
function middle(): Point {
  const box = document.getElementById("drawing")?.getBoundingClientRect();
  const [x, y] = toJob(sight.view, [(box?.width ?? 0) / 2, (box?.height ?? 0) / 2]);
  const whole = sight.units === "in" ? 25.4 : 1;
  return [Math.round(x / whole) * whole, Math.round(y / whole) * whole];
}

function withControl(event: KeyboardEvent): void {
  const key = event.key.toLowerCase();
  if (key === "z" && !event.shiftKey && drawing.points.length > 0) drawing.back();
  else if (key === "z") void (event.shiftKey ? redo() : undo());
  else if (key === "y") void redo();
  else if (key === "a") sight.boards = [...job.boardByName.keys()];
  else return;
  event.preventDefault();
}

/** True where the key meant something. */
function pressed(event: KeyboardEvent): boolean {
  const way = ARROWS[event.key];
  if (way) return arrow(way, event);
  const button = event.target instanceof Element && event.target.closest("button, a, summary, [role=button]") !== null;
  switch (event.key) {
    case "Escape":
      return escaped();
    case "Delete":
    case "Backspace":
      return act("Del");
    case "+":
    case "=":
      return zoom(ZOOM);
    case "-":
      return zoom(1 / ZOOM);
    case "0":
      sight.fits = true;
      return true;
    case "?":
      sight.keys = !sight.keys;
      return true;
    default:
      return button && event.key === " " ? false : letter(event);
  }
}

function letter(event: KeyboardEvent): boolean {
  switch (event.key.toLowerCase()) {
    case "y":
      told.all = !told.all;
      return true;
    case "n":
      return step(1, event.shiftKey);
    case "p":
      return step(-1, event.shiftKey);
    case "j":
      return note(1);
    case "k":
      return note(-1);
    case "m":
      if (!event.shiftKey) return act("M");
      if (lights.drawnOn) void mirrorChosen(false);
      return true;
    case "l":
      lift();
      return true;
    case "t":
      sight.drawer = sight.drawer === "text" ? "none" : "text";
      return true;
    case "i":
      sight.drawer = sight.drawer === "list" ? "none" : "list";
      return true;
    case "c":
      document.querySelector<HTMLElement>(".card .typed, .card select")?.focus();
      return true;
    case "e":
      toggleEvening();
      return true;
    case "u":
      sight.units = sight.units === "mm" ? "in" : "mm";
      return true;
    case "o":
      if (!event.shiftKey || sight.bay === null) return act("O");
      void chosenBay.step(-1);
      return true;
    default:
      return /^[1-9]$/.test(event.key) ? light(Number(event.key)) : act(event.key.toUpperCase());
  }
}

/** One of the hand's line, by its key. */
function act(key: string): boolean {
  const found = ACTS.find((one) => one.key === key);
  if (!found || !can(found)) return false;
  found.do();
  return true;
}

/** The light that stands there in the bar; what it is there for is at hand then. */
function light(number: number): boolean {
  const wanted = shownLights()[number - 1];
  if (!wanted || waitsFor(wanted) !== "") return false;
  lights.choose(wanted.name);
  void tick().then(() => document.querySelector<HTMLElement>("[data-main]")?.focus());
  return true;
}

function arrow([x, y]: readonly [number, number], event: KeyboardEvent): boolean {
  if (event.target instanceof Element && event.target.closest("[role=slider], nav, aside") !== null) return false;
  const [one, ten, tenth] = NUDGE[sight.units];
  const far = event.shiftKey ? ten : event.altKey ? tenth : one;
  if (lights.now?.step) lights.now.step(x + y > 0 ? 1 : -1);
  else if (!lights.drawnOn) return false;
  else if (sight.bay !== null && event.shiftKey) chosenBay.further([x, y]);
  else if (sight.boards.length > 0) nudge([x * far, y * far]);
  else {
    sight.fits = false;
    sight.view = panned(sight.view, -x * PAN, y * PAN);
  }
  return true;
}

function escaped(): boolean {
  nudgeSettled();
  if (sight.keys) sight.keys = false;
  else if (sight.versions) sight.versions = false;
  else if (lights.now?.leaves) lights.leave();
  else if (sight.tool !== "hand") drawing.end();
  else sight.chooseNothing();
  return true;
}

function zoom(by: number): boolean {
  const box = document.getElementById("drawing")?.getBoundingClientRect();
  sight.fits = false;
  sight.view = zoomed(sight.view, [(box?.width ?? 0) / 2, (box?.height ?? 0) / 2], by);
  return true;
}

function step(by: number, joints: boolean): boolean {
  const drawn = job.shown?.drawing;
  if (!drawn) return false;
  if (joints) {
    const at = drawn.joints.findIndex((joint) => joint.boards.join("\n") === sight.joint?.join("\n"));
    const next = drawn.joints.at((at + by + drawn.joints.length) % Math.max(1, drawn.joints.length));
    if (next) sight.chooseJoint(next.boards);
  } else {
    const at = drawn.boards.findIndex((board) => board.name === sight.boards[0]);
    const next = drawn.boards.at((at + by + drawn.boards.length) % Math.max(1, drawn.boards.length));
    if (next) sight.choose(next.name);
  }
  return true;
}

function note(by: number): boolean {
  const notes = job.shown?.notes ?? [];
  const at = notes.findIndex((one) => one.id === sight.note);
  const next = notes.at((at + by + notes.length) % Math.max(1, notes.length));
  if (!next) return false;
  sight.note = next.id;
  const row = document.querySelector<HTMLElement>(`[data-note="${CSS.escape(next.id)}"]`);
  (row?.querySelector<HTMLElement>(".cure") ?? row?.querySelector<HTMLElement>(".what"))?.focus(); // Enter takes its cure
  return true;
}
