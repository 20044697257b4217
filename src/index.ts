/** The library. It runs in a browser as it does in node; `node.ts` adds what reads and writes files. */

export { bundleLoader, type CatalogueBundle, packCatalogue } from "./catalogue/bundle.ts";
export * as catalogue from "./catalogue/index.ts";
export { Catalogue } from "./catalogue/index.ts";
export { type Place, type Problem, TenfoldError } from "./errors/problem.ts";
export { problemData, problemsText, problemText } from "./errors/wording.ts";
export { parseFormula } from "./formulas/parse.ts";
export * as models from "./models/registry.ts";
export { formatQuantity, formatRatio, formatRow } from "./quantities/format.ts";
export { readQuantity } from "./quantities/quantity.ts";
export type * from "./report/document/document.ts";
export { comparisonDocument, estimateDocument } from "./report/documents/comparison.ts";
export { comparisonData } from "./report/documents/comparison-data.ts";
export { evidenceDocument } from "./report/documents/evidence/evidence.ts";
export { explanationDocument } from "./report/documents/explanation.ts";
export { organiseDocument } from "./report/documents/organise.ts";
export { sourcesDocument } from "./report/documents/sources.ts";
export { standbyDocument } from "./report/documents/standby.ts";
export { switchData, switchDocument } from "./report/documents/switch.ts";
export { fitData, fitDocument } from "./report/documents/switch-fit.ts";
export { levelsData, levelsDocument } from "./report/documents/switch-levels.ts";
export { uncertaintyDocument } from "./report/documents/uncertainty.ts";
export { csvFiles, renderCsv, toCsv } from "./report/renderers/csv.ts";
export { renderHtml } from "./report/renderers/html/html.ts";
export { renderJson } from "./report/renderers/json.ts";
export { renderLatex } from "./report/renderers/latex/latex.ts";
export { renderMarkdown } from "./report/renderers/markdown.ts";
export { renderText, type TextOptions } from "./report/renderers/text/text.ts";
export { readStudy } from "./schema/read-study.ts";
export type { Study } from "./schema/study.ts";
export { type ComparedQuantity, compareDesigns } from "./studies/compare.ts";
export { studyReader, type TextOptions as StudyTextOptions } from "./studies/definition.ts";
export { type EstimatedDesign, estimateStudy, type StudyEstimate } from "./studies/estimate.ts";
export { estimateData, type Provenance } from "./studies/estimate-data.ts";
export { type ChipMatter, type ComparedChip, compareChip } from "./studies/evidence/compare.ts";
export { type Evidence, evidenceOf } from "./studies/evidence/evidence.ts";
export { type EvidencePlan, readPlan } from "./studies/evidence/plan.ts";
export { type Explanation, explainQuantity, studySources } from "./studies/explain.ts";
export { errorBasis, memoryKind, modelInterval } from "./studies/model-error.ts";
export { type SearchSpace, searchGrid } from "./studies/organise/search.ts";
export {
  type Organised as OrganisationSearch,
  organiseStudy,
} from "./studies/organise/study.ts";
export { type StudyStandby, standbyOfStudy } from "./studies/standby/study.ts";
export { CHUNK, chunksOf, SweepChunks, sweepRows, sweepTables } from "./studies/sweep/chunk.ts";
export type { Reopen } from "./studies/sweep/families.ts";
export { planSweep, type SweepColumn, type SweepPlan } from "./studies/sweep/plan.ts";
export type { SweepRow, SweepTable, TableColumn } from "./studies/sweep/table.ts";
export { type FittedSwitch, fitMeasured, type Measured } from "./studies/switch/fit.ts";
export { type LevelsStudy, studyLevels } from "./studies/switch/levels.ts";
export type { LevelsAsked, LevelsSwitch } from "./studies/switch/levels-plan.ts";
export { readMeasured } from "./studies/switch/measured.ts";
export {
  geometryOf,
  levelsSwitchOf,
  type SwitchStudy,
  studySwitch,
} from "./studies/switch/switch.ts";
export { MacroUncertainty, type UncertainModel } from "./studies/uncertainty/model.ts";
export { type Propagated, propagateDistributions } from "./studies/uncertainty/propagate.ts";
export { type Sensitivity, sensitivityOf } from "./studies/uncertainty/sensitivity.ts";
export { type StudyUncertainty, uncertaintyOfStudy } from "./studies/uncertainty/study.ts";
export { type TargetResult, whatMustImprove } from "./studies/uncertainty/target.ts";
export { type Tornado, tornadoes } from "./studies/uncertainty/tornado.ts";
