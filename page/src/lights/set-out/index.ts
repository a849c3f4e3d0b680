import type { Light } from "../light";

export const light: Light = { name: "set-out", word: "Set out", order: 20 };
