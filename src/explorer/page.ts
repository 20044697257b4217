import type { Document } from "../report/document/document.ts";
import { escapeHtml } from "../report/renderers/html/escape.ts";
import { spellActing } from "../report/renderers/json.ts";
import { piecesOf } from "./engine/blocks.ts";
import type { SessionSettings } from "./engine/session.ts";

/** What the build makes for every page. */
export interface PageParts {
  readonly script: string;
  /** `sha256-…`, as a content-security policy names it. */
  readonly scriptHash: string;
  readonly style: string;
  readonly styleHash: string;
  /** The workers' script, deflated, in base 64. */
  readonly engine: string;
}

/** What one page is made of. */
export interface PageMatter extends SessionSettings {
  /** The study. */
  readonly text: string;
  /** Its report, which the page shows before, and without, its script. */
  readonly document: Document;
}

/**
 * One file that needs nothing else: the report of a study, beside it its text and sliders, and the
 * engine that makes the one from the other. Its policy lets nothing run or apply but its own script
 * and style, and nothing be fetched; the engine's workers are made of the page's own text, the
 * network solver is WebAssembly.
 */
export function explorerPage(matter: PageMatter, parts: PageParts): string {
  const { document, file, version, entries, command, text } = matter;
  const data = JSON.stringify({ file, version, entries, command, text });
  const title = escapeHtml(document.title);
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policyOf(parts)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>${title}</title>
<style>${parts.style}</style>
</head>
<body>
<a id="skip" class="skip" href="#report" hidden>To the figures</a>
${sideOf(file)}
<main id="report" tabindex="-1">
<h1 id="title">${title}</h1>
<p id="subtitle" class="subtitle">${escapeHtml(document.subtitle ?? "")}</p>
<div id="pieces">
${piecesOf(document)
  .map(({ key, html }) => `<div class="piece" data-key="${escapeHtml(key)}">${html}</div>`)
  .join("\n")}
</div>
</main>
<script type="application/json" id="data">${inScript(data)}</script>
<script type="text/plain" id="engine">${parts.engine}</script>
<script>${parts.script}</script>
</body>
</html>
`;
}

function policyOf({ scriptHash, styleHash }: PageParts): string {
  return [
    "default-src 'none'",
    `script-src '${scriptHash}' 'wasm-unsafe-eval'`,
    `style-src '${styleHash}'`,
    "worker-src blob:",
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");
}

/** JSON in which no text ends the element that holds it, or acts where the page is read as text. */
function inScript(json: string): string {
  return spellActing(json).replaceAll("<", "\\u003c");
}

/** Text and sliders, hidden until the script shows them. */
function sideOf(file: string): string {
  return `<div id="study" class="side" hidden>
<header class="head">
<p class="file">${escapeHtml(file)}</p>
<div class="tools">
<button type="button" id="undo" aria-keyshortcuts="Control+Z">Undo</button>
<button type="button" id="redo" aria-keyshortcuts="Control+Shift+Z">Redo</button>
<details id="share" class="menu"><summary>Share</summary><div class="sheet">
<label for="link">Address of this study</label>
<input id="link" readonly hidden><button type="button" id="copy" hidden>Copy</button>
<p id="shared" role="status"></p>
</div></details>
<details id="save" class="menu"><summary>Save as</summary><div class="sheet">
<ul id="files"><li>One moment …</li></ul>
</div></details>
</div>
</header>
<p id="state" class="state" role="status">The model is being set up.</p>
<section aria-label="Study in YAML">
<div class="editor">
<div id="numbers" aria-hidden="true"></div>
<div class="field">
<pre id="marks" aria-hidden="true"></pre>
<textarea id="text" aria-label="Study in YAML" aria-describedby="state" spellcheck="false"
autocapitalize="off" autocomplete="off" wrap="off"></textarea>
</div>
</div>
<ul id="problems" aria-label="Mistakes in the study" hidden></ul>
</section>
<section aria-label="Parameters" id="sliders"></section>
</div>`;
}
