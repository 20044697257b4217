import { CHART_RULES } from "../../charts/rules.ts";

/** The page's style sheet. Light and dark follow the reader's system; on paper it is light. */
export const STYLE = `
:root{color-scheme:light dark;--paper:#fff;--ink:#1b1f24;--soft:#57606a;
--line:#d0d7de;--tint:#f6f8fa;
--warn:#7a3e00;--warn-tint:#fff4e5}
@media(prefers-color-scheme:dark){:root{--paper:#14171b;--ink:#e8ebee;--soft:#a5afb9;--line:#3a424b;
--tint:#1d2228;--warn:#ffc680;--warn-tint:#33240f}}
@media print{:root{--paper:#fff;--ink:#000;--soft:#444;
--line:#999;--tint:#fff;--warn:#000;--warn-tint:#fff}
table{break-inside:avoid}}
body{margin:0 auto;max-width:64rem;padding:1.5rem;background:var(--paper);color:var(--ink);
font:16px/1.5 system-ui,sans-serif;overflow-wrap:anywhere}
h1{font-size:1.6rem;line-height:1.25;margin:0}
h2{font-size:1.2rem;margin:2rem 0 .5rem}
h3{font-size:1rem;margin:1.5rem 0 .5rem}
.subtitle{color:var(--soft);margin:.25rem 0 1.5rem}
.contents{columns:18rem;list-style:none;padding:0;font-size:.9rem}
.level-1{font-weight:600;break-after:avoid}
.level-2{padding-left:1rem}
a{color:inherit}
.scroll{overflow-x:auto}
table{border-collapse:collapse;margin:.75rem 0;font-variant-numeric:tabular-nums;
overflow-wrap:normal}
caption{text-align:left;font-weight:600;padding-bottom:.4rem}
th,td{padding:.35rem .8rem .35rem 0;text-align:left;vertical-align:top;unicode-bidi:isolate;
border-bottom:1px solid var(--line)}
thead th{border-bottom:2px solid var(--line)}
tbody th{font-weight:400}
.right{text-align:right}
td b{font-weight:600}
.interval,.model,.ratio,.remark{display:block;color:var(--soft);font-size:.875rem;
white-space:nowrap}
.remark{white-space:normal}
.note{border-left:3px solid var(--line);background:var(--tint);padding:.5rem .8rem;margin:.75rem 0}
.warning,.caution{border-color:var(--warn);background:var(--warn-tint)}
.formula{font:.9rem/1.6 ui-monospace,monospace;white-space:pre-wrap;margin:.5rem 0}
math[display=block]{width:max-content;max-width:100%;margin:.75rem 0 .25rem;font-size:1.05rem}
math mtd{text-align:left}
main{container-type:inline-size}
math+.formula{color:var(--soft);font-size:.8rem;margin:0 0 .5rem}
@container(max-width:44rem){math[display=block]{display:none}
math+.formula{color:inherit;font-size:.9rem;margin:.5rem 0}}
.indented{border-left:1px solid var(--line);padding-left:1rem;margin-left:.25rem}
dl{display:grid;grid-template-columns:max-content 1fr;gap:.25rem 1rem;margin:.75rem 0}
dt{color:var(--soft)}
dd{margin:0}
.bar{display:block;width:10rem;height:.7rem}
.bar rect{fill:currentColor}
figure{margin:1rem 0;overflow-x:auto}
figcaption{color:var(--soft);font-size:.9rem;max-width:48rem}
${CHART_RULES}
@media(max-width:40rem){body{padding:1rem}dl{grid-template-columns:1fr}}
`;

/** SHA-256 of the style sheet, which the page's content-security policy names; a test fails when it is out of date. */
export const STYLE_HASH = "sha256-yhiWsIIPqr1duIKAk65oTl437bxORtpm5kfi4f4tIEE=";
