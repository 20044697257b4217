/** Each of these runs through every place of a document that takes a text, in every format. */
export const PAYLOADS: Readonly<Record<string, string>> = {
  "a script": "<script>alert(1)</script>",
  "an image with a handler": `"><img src=x onerror='alert(1)'>`,
  "an entity": "&lt;script&gt;&#60;b&#62;",
  "a closing style": "</style><script>alert(1)</script>",
  "a spreadsheet formula": '=HYPERLINK("http://evil.example","x")',
  "a spreadsheet command": "@SUM(1+1)*cmd|' /C calc'!A0",
  "a formula behind a tab": "\t=1+1",
  "a formula behind a space": " +1+1",
  "a wide equals sign": "＝1+1",
  "TeX input": "\\input{/etc/passwd}",
  "TeX shell escape": "\\immediate\\write18{id}",
  "TeX specials": "$ & # ^ _ ~ % { } \\ [x] -- ``",
  "a TeX row end": "x \\\\ \\hline & y",
  "a Markdown link": "[x](javascript:alert(1))",
  "a Markdown image": "![x](http://evil.example/x.png)",
  "a Markdown table break": "a | b\n| --- |",
  "Markdown marks": "# *a* _b_ `c` ~~d~~ <http://evil.example>",
  "a fence": "```\n````\nend",
  "a bare link": "http://evil.example and www.evil.example",
  "terminal escapes": "\u001b[31mred\u001b[0m\u001b]0;title\u0007\u009b2J",
  "right-to-left marks": "abc\u202edef\u2066ghi\u2069\u200f",
  "control characters": "a\u0000b\u0008c\rd\u2028e\u0085f",
  "half a surrogate pair": "a\ud800b\udfffc",
  "a letter of another script": "中文 العربية עברית 👩‍🔬",
  "ten thousand letters": "x".repeat(10_000),
  "a long line of words": "word ".repeat(2_000),
  "only blanks": "   ",
  nothing: "",
};

/** What no output may hold raw, whatever its format. */
export const ACTING =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: controls are what is looked for
  /[\u0000-\u0009\u000b\u000c\u000e-\u001f\u007f-\u009f\u200e\u200f\u2028-\u202e\u2066-\u2069]|\p{Surrogate}/u;
