import { STYLE as REPORT } from "../report/renderers/html/style.ts";

/** The text with its marks and line numbers. */
const EDITOR = `
.editor{display:flex;border:1px solid var(--line);background:var(--field);resize:vertical;
overflow:hidden;height:44vh;min-height:12rem;
font:13px/1.5 ui-monospace,"Cascadia Mono","DejaVu Sans Mono",monospace}
.editor:focus-within{border-color:var(--accent)}
#numbers{overflow:hidden;padding:.5rem .4rem .5rem .6rem;text-align:right;white-space:pre;
color:var(--soft);user-select:none;flex:none;border-right:1px solid var(--line)}
#numbers .wrong{color:var(--mark);font-weight:700}
.field{position:relative;flex:1;min-width:0}
#text,#marks{position:absolute;inset:0;margin:0;padding:.5rem .6rem;border:0;font:inherit;
white-space:pre;overflow:auto;width:100%;height:100%;box-sizing:border-box;tab-size:2;
overflow-wrap:normal}
#text{resize:none;color:var(--ink);background:transparent;outline:none}
#marks{color:transparent;overflow:hidden;pointer-events:none}
#marks mark{color:transparent;background:var(--mark-tint);
text-decoration:underline wavy var(--mark);text-underline-offset:3px}
#problems{list-style:none;margin:.6rem 0 0;padding:0;max-height:18rem;overflow:auto}
#problems li{border-left:3px solid var(--mark);padding:.1rem 0 .4rem .75rem;margin-bottom:.6rem}
#problems pre{margin:0 0 .4rem;white-space:pre-wrap;
font:12px/1.5 ui-monospace,"DejaVu Sans Mono",monospace}
`;

/** Quiet tracks with a round handle, the same in all browsers. */
const SLIDERS = `
.knobs{border:0;padding:0;margin:1.1rem 0 0;min-width:0}
.knobs legend{font-weight:600;padding:0;margin-bottom:.2rem}
.knob{display:grid;grid-template-columns:1fr auto;gap:0 .75rem;padding:.2rem 0}
.knob label{min-width:0}
.knob .of{color:var(--soft);font-size:.8rem}
.knob output{font-variant-numeric:tabular-nums;text-align:right;white-space:nowrap}
input[type=range]{grid-column:1/-1;width:100%;margin:0;height:1.5rem;background:transparent;
appearance:none;cursor:pointer}
input[type=range]::-webkit-slider-runnable-track{height:2px;background:var(--track)}
input[type=range]::-moz-range-track{height:2px;background:var(--track)}
input[type=range]::-webkit-slider-thumb{appearance:none;width:14px;height:14px;margin-top:-6px;
border-radius:50%;background:var(--ink);border:0}
input[type=range]::-moz-range-thumb{width:14px;height:14px;border-radius:50%;
background:var(--ink);border:0}
input[type=range]:disabled{opacity:.5}
select{font:inherit;color:var(--ink);background:var(--field);border:1px solid var(--line);
padding:.1rem .3rem;max-width:100%}
`;

const TOOLS = `
.head{display:flex;flex-wrap:wrap;gap:.4rem 1rem;align-items:center;
justify-content:space-between}
.file{margin:0;font-weight:600;min-width:0}
.tools{display:flex;flex-wrap:wrap;gap:.3rem;position:relative;width:100%}
.tools button,.tools summary,#problems button{font:inherit;font-size:.85rem;color:var(--ink);
background:transparent;border:1px solid var(--line);border-radius:3px;padding:.2rem .6rem;
cursor:pointer;list-style:none;line-height:1.4}
.tools summary::-webkit-details-marker{display:none}
.tools button:hover,.tools summary:hover,#problems button:hover{border-color:var(--soft)}
.tools [aria-disabled=true]{color:var(--soft);cursor:default}
.menu[open]>summary{border-color:var(--soft)}
.sheet{position:absolute;left:0;top:2.2rem;z-index:2;background:var(--paper);padding:.75rem;
border:1px solid var(--line);width:min(22rem,100%);max-height:70vh;overflow:auto;
box-sizing:border-box;box-shadow:0 4px 16px #0002}
.sheet ul{list-style:none;margin:0;padding:0}
.sheet li button{width:100%;text-align:left;border:0;padding:.3rem .4rem}
.sheet li button:hover{background:var(--tint)}
.sheet label{display:block;margin-bottom:.25rem}
.sheet input{width:100%;box-sizing:border-box;font:.8rem ui-monospace,monospace;padding:.35rem;
color:var(--ink);background:var(--field);border:1px solid var(--line)}
.sheet p{margin:.5rem 0 0;color:var(--soft)}
.sheet #copy{margin-top:.5rem}
.state{color:var(--soft);margin:.5rem 0;min-height:1.5em}
`;

/** Side by side where there is room, each half scrolling on its own; else one below the other. */
const LAYOUT = `
.live body{max-width:none;padding:0}
.live main{padding:1.5rem 2.5rem 4rem;max-width:66rem}
.side{padding:1rem 1.25rem 2rem;background:var(--tint);font-size:.9rem}
.piece>:first-child{margin-top:.75rem}
.piece>h2:first-child{margin-top:2rem}
.live tbody th{position:sticky;left:0;background:var(--paper);min-width:6rem}
figure svg{max-width:100%;height:auto}
.stale{opacity:.9}
.old{opacity:.9}
@media(min-width:64rem){
.live,.live body{height:100%;overflow:hidden}
.live body{display:grid;grid-template-columns:minmax(24rem,33%) minmax(0,1fr)}
.live .side,.live main{overflow-y:auto;min-height:0}
.side{border-right:1px solid var(--line)}
}
@media(max-width:63.99rem){.side{border-bottom:1px solid var(--line)}.editor{height:18rem}}
@media(max-width:40rem){.live main{padding:1rem}.side{padding:1rem}}
@media print{.side,.skip{display:none!important}
.live,.live body,.live main{display:block!important;height:auto!important;max-width:none;
overflow:visible!important}
.live main{padding:0}.scroll,figure{overflow:visible}table{font-size:.75rem;break-inside:auto}
th,td{padding-right:.5rem}tr{break-inside:avoid}.interval,.ratio{font-size:.7rem}
.stale,.old{opacity:1}}
`;

/** The style sheet of the explorer: that of a report, and beside it the text with its sliders. */
export const STYLE = `${REPORT}
[hidden]{display:none!important}
:root{--mark:#b3261e;--mark-tint:#fbe4e2;--accent:#1f5fa8;--field:#fff;--track:#8b949e}
@media(prefers-color-scheme:dark){:root{--mark:#ffb4ab;--mark-tint:#4a1f1b;--accent:#8ab8f0;
--field:#0f1215;--track:#6e7781}}
:focus-visible{outline:2px solid var(--accent);outline-offset:2px}
main:focus{outline:none}
.skip{position:absolute;left:-100vw;top:0;padding:.5rem 1rem;background:var(--paper);z-index:3}
.skip:focus{left:0}
${TOOLS}${EDITOR}${SLIDERS}${LAYOUT}`;
