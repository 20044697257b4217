/** How many standard deviations a read margin has. */
import { type Procedure, procedure } from "../../formulas/sheet.ts";
import { solve } from "../../numerics/roots.ts";
import { exp } from "../../numerics/special/elementary.ts";
import { formula, inputsOf, model } from "../define.ts";

/** Beyond this a margin has all that anybody asks for. */
const MOST_SIGMAS = 1000;
const SMALLEST = 1e-9;

/**
 * The number k at which a cell k deviations too resistive in its on state, or k too conductive in
 * its off state, and an amplifier k deviations off on each side use up a margin.
 *
 * @param margin difference between the two states of median cells, worst pattern [A]
 * @param on current of a median cell that is on, and `off` of one that is off [A]
 * @param onSpread standard deviation of ln R, and `offSpread`
 * @param noise standard deviation of what the amplifier adds [A]
 * @returns 0 where there is no margin
 */
export function marginSigmas(
  margin: number,
  on: number,
  off: number,
  onSpread: number,
  offSpread: number,
  noise: number,
): number {
  if (!(margin > 0)) return 0;
  const left = (k: number) =>
    margin -
    on * (1 - exp(-k * onSpread)) -
    off * (exp(Math.min(k * offSpread, 700)) - 1) -
    2 * k * noise;
  let most = 1;
  while (left(most) > 0) {
    most *= 2;
    if (most > MOST_SIGMAS) return MOST_SIGMAS;
  }
  return solve(left, 0, most, { relative: SMALLEST });
}

/** What the amplifier adds to a current: offset and shot noise. */
export const senseSpread = model({
  name: "sense_spread",
  title: "Offset and noise of a current sense amplifier",
  about:
    "Mismatch of the mirror, and the shot noise of the compared current over the time in which " +
    "it is integrated.",
  inputs: {
    sense_amplifier_offset_current: { unit: "A", meaning: "current that the mismatch may add" },
    sense_sigmas: { unit: "1", meaning: "standard deviations that it stands for" },
    sense_amplifier_reference_current: { unit: "A", meaning: "mean of the compared currents" },
    sense_amplifier_signal_time: { unit: "s", meaning: "time of integration" },
  },
  formulas: {
    sense_current_sigma: formula(
      "A",
      "sqrt((sense_amplifier_offset_current / sense_sigmas)^2 + elementary_charge * " +
        "sense_amplifier_reference_current / sense_amplifier_signal_time)",
      "standard deviation of offset and noise",
      "detection",
      { note: "2 q I of shot noise in the bandwidth 1/(2 t) of an integration" },
    ),
  },
});

/** `read_margin_sigmas` of a cell whose states have lognormal spreads. */
export const readMarginSigmas: Procedure = procedure({
  name: "read_margin_sigmas",
  title: "Read margin in standard deviations",
  about:
    "Resistances are lognormal, offset and noise normal. All that can eat the margin is at k " +
    "standard deviations at once, on both sides of the reference: a bound, and more than what a " +
    "root of squares would give. Found inside a bracket to nine digits; 1000 stands for more.",
  source: "detection",
  inputs: inputsOf(
    [
      "signal_current",
      "cell_on_current",
      "cell_off_current",
      "on_spread",
      "off_spread",
      "sense_current_sigma",
    ],
    {
      signal_current: { unit: "A", meaning: "difference between the states of median cells" },
      on_spread: { unit: "1", meaning: "standard deviation of ln R, on" },
      off_spread: { unit: "1", meaning: "standard deviation of ln R, off" },
      sense_current_sigma: { unit: "A", meaning: "standard deviation of offset and noise" },
    },
  ),
  outputs: {
    read_margin_sigmas: { unit: "1", meaning: "standard deviations that the read margin has" },
  },
  run(inputs, outputs) {
    const [margin, on, off, onSpread, offSpread, noise] = inputs as unknown as number[];
    outputs[0] = marginSigmas(margin!, on!, off!, onSpread!, offSpread!, noise!);
  },
});
