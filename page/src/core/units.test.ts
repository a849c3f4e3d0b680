import { describe, expect, it } from "vitest";
import { degrees, fine, inches, length, typedLength, withUnit } from "./units";

describe("lengths on the card", () => {
  it.each([
    [0.15, "mm", "0.15"],
    [19.85, "mm", "19.85"],
    [24.1, "mm", "24.1"],
    [555.3712, "mm", "555.4"],
    [25.4 / 128, "in", "0.008"], // 1 / 128 = 0.0078, which 1/64 would double
    [25.4 / 64, "in", "1/64"],
    [600.075, "in", "23 5/8"],
  ] as const)("says %s mm in %s as %s", (mm, shown, said) => expect(fine(mm, shown)).toBe(said));
});

describe("lengths as they are typed", () => {
  it.each([
    ["12.5", "mm", 12.5],
    ["-3", "mm", -3],
    ["23 5/8", "in", 600.075], // 23.625 * 25.4
    ["-1/2", "in", -12.7],
    [".25", "in", 6.35],
  ] as const)("reads %s in %s as %s mm", (text, shown, mm) => expect(typedLength(text, shown)).toBeCloseTo(mm, 9));

  it.each([
    ["5/8", "mm"], ["1/0", "in"], ["width / 2", "in"], ["3 in", "in"], ["", "mm"],
  ] as const)("leaves %s, seen in %s, to the server", (text, shown) => expect(typedLength(text, shown)).toBeNull());

  it("puts the unit behind a bare figure where the job has the other, or it is a fraction", () => {
    expect(withUnit("23 5/8", "in", "mm")).toBe("23 5/8 in");
    expect(withUnit(" 40 ", "mm", "in")).toBe("40 mm");
    expect(withUnit("40", "mm", "mm")).toBe("40");
    expect(withUnit("40", "in", "in")).toBe("40");
    expect(withUnit("40 1/2", "in", "in")).toBe("40 1/2 in");
    expect(withUnit("bay + 2", "in", "mm")).toBe("bay + 2");
  });
});

describe("lengths as they can be held", () => {
  it("shows a tenth of a millimetre and no noise of sums", () => {
    expect(length(607.4800000001, "mm")).toBe("607.5");
    expect(length(560, "mm")).toBe("560");
    expect(length(560, "mm", true)).toBe("560.0");
    expect(length(-0.001, "mm")).toBe("0");
  });

  it.each([
    [25.4, "1"],
    [600.075, "23 5/8"], // 23.625 * 25.4
    [12.7, "1/2"],
    [25.4 * (2 + 63 / 64), "2 63/64"],
    [-9.525, "-3/8"],
    [0, "0"],
  ])("says %s mm as %s inches, in lowest terms", (mm, said) => {
    expect(inches(mm)).toBe(said);
  });

  it("never strays more than half a sixty-fourth, for any length", () => {
    for (let mm = 0; mm < 2000; mm += 3.17) {
      const [whole, fraction] = /^(\d+)? ?(?:(\d+\/\d+))?$/.exec(inches(mm))?.slice(1) ?? [];
      const [top, bottom] = (fraction ?? "0/1").split("/").map(Number);
      const back = (Number(whole ?? 0) + (top ?? 0) / (bottom ?? 1)) * 25.4;
      expect(Math.abs(back - mm)).toBeLessThanOrEqual(25.4 / 128 + 1e-9);
    }
  });

  it("says an angle to a hundredth of a degree", () => expect(degrees(9.00001)).toBe("9.00°"));
});
