import { lights } from "../core/lights.svelte";

/** What each word of the page's bars means: told where the hand rests on it, on a long touch, and all of them by Y. */
export const WORDS: readonly (readonly [string, string])[] = [
  ["Text", "the job file itself, beside the drawing: what is typed in either is in both"],
  ["List", "boards, joints and notes as a list, for reading through and for a screen reader"],
  ["Inches", "figures in inches on this screen; the job file keeps its own unit"],
  ["Lift", "the flat drawing tilts up into the model: turn it, take it apart, cut it open; once more and it lies flat again"],
  ["Evening", "a dark sheet for the evening"],
  ["the wall", "how wide and high the wall is, and where its studs are: the sheet is drawn to it"],
  ["a board", "one board, from its start to its end"],
  ["a row", "several boards at once, standing or lying side by side in a bay"],
  ["a frame", "four boards or more joined at their corners"],
  ["a bay", "a clear opening between boards: its width and height can be typed"],
  ["lean", "by how many degrees a board leans off plumb"],
  ["copy", "the boards chosen once more, beside themselves"],
  ["mirror", "a copy of the boards chosen, left for right about the middle of the wall"],
  ["take out", "the boards chosen go, with their joints"],
  ["alone", "only what is chosen is shown"],
  ["measure", "press two places of the model: how far they are apart"],
  ["cut", "the model is shown cut open by a flat cut; nothing of the job is cut"],
  ["across", "cut open from the wall to the front, standing: seen from the side"],
  ["level", "cut open level: seen from above"],
  ["deep", "cut open along the wall, so deep from it: seen from the front"],
  ["apart", "the parts drawn away from each other, the way each goes in"],
  ["job", "its title, as it is printed on every sheet"],
  ["size", "over all: width, height, how far it stands out; and what it weighs"],
  ["state", "what the notes come to: a stop must be changed before a cut is made, a warning looked at; not checked is what no figure was given for"],
  ["saved", "when the file was last written. The four letters name how the job stands: papers made from it carry the same"],
  ["versions", "every change of this job, the newest first; put back outside is one that another program made, which brought an earlier version back"],
  ["undo", "takes the last change back"],
  ["redo", "does it again"],
];

/** What a word means; "" of one that is none of these. */
export function meaning(word: string): string {
  return WORDS.find(([one]) => one === word)?.[1] ?? lights.all.find((light) => light.word === word)?.says ?? "";
}
