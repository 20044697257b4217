/** Style rules for all charts; a page that holds charts has them in its own style sheet. */
export const CHART_RULES = `.chart{color:#1b1f24;font:13px system-ui,sans-serif;max-width:100%;height:auto}
@media(prefers-color-scheme:dark){.chart{color:#e8ebee}}
@media print{.chart{color:#000}}`;
