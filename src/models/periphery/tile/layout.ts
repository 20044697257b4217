/** Layout area of circuits that stand at the pitch of rows and columns. */

/**
 * Area of devices drawn one beside another, as a formula: each has its width and the isolation and
 * wiring next to it.
 *
 * @param width formula of all device widths [m]
 * @param transistors formula of their number [1]
 * @param perWidth name of the layout area per width [m]: core or thick-oxide devices
 * @param share name of the layout area over that of the devices [1]
 */
export function layoutArea(
  width: string,
  transistors: string,
  perWidth: string,
  share: "wide_layout_share" | "pitch_layout_share",
): string {
  return (
    `(${width} + ${transistors} * isolation_pitches * contacted_gate_pitch) * ` +
    `${perWidth} * ${share}`
  );
}

/**
 * Swing of the gates of raised switches, as a formula: in a read they pass a small voltage, for
 * which the input-output supply is enough; in a write they stand above what they pass.
 */
export function selectSwing(access: "read" | "write", raised: boolean): string {
  if (!raised) return "supply";
  const write = "max(supply, write_voltage)";
  return access === "write" ? write : `min(max(supply, io_supply), ${write})`;
}
