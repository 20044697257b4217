/** A study whose every text wants to be something else: markup, a spreadsheet formula, a TeX command, a direction. */
const TEXT =
  `<script>alert(1)</script> "><img src=x onerror=alert(1)> =cmd|' /C calc'!A0 ` +
  `\\input{/etc/passwd} $ & # ^ _ ~ % { } | \` [x](javascript:alert(1)) \u202eabc\u2066 中文 🤖`;
const LONG = "a long name ".repeat(850);

const quoted = (text: string) => JSON.stringify(text);

export const HOSTILE_STUDY = `title: ${quoted(TEXT)}
question: ${quoted(`${TEXT} ${LONG}`)}
technology: cmos-65
baseline: static
samples: 256
defaults:
  capacity: 16 kib
  word: 16 bit
designs:
  static:
    title: ${quoted(TEXT)}
    cell: sram-6t
  mine:
    title: ${quoted(LONG)}
    cell:
      switch:
        from: oxide-bilayer
        on_resistance: {value: 10 kohm, low: 7 kohm, high: 14 kohm, source: ${quoted(TEXT)}, note: ${quoted(TEXT)}}
      selector: transistor
`;
