import { aLight } from "../../core/light";

export const light = aLight({ name: "set-out", word: "Set out", says: "boards, joints and dimensions: where the piece is drawn and typed", order: 20, studies: [], first: true });
