import type { Order } from "../core/wire";

/** When a board goes in: "in the room, after middle upright and before raking 2"; "" where the order has no place for it. */
export function comesIn(order: Order, name: string): string {
  for (const stage of order.stages) {
    const where = stage.place === "site" ? "in the room" : "in the shop";
    if (stage.first.includes(name)) return `${where}, laid down first`;
    const at = stage.steps.findIndex((step) => step.parts.includes(name));
    if (at < 0) continue;
    if (stage.steps[at]?.legs.length === 0) return `${where}, laid down first`;
    const [before, after] = [stage.steps[at - 1]?.name ?? stage.first.join(", "), stage.steps[at + 1]?.name];
    const words = [before === "" ? "" : `after ${before}`, after === undefined ? "last" : `before ${after}`];
    return `${where}, ${words.filter((word) => word !== "").join(after === undefined ? ", " : " and ")}`;
  }
  return "";
}
