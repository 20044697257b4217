import { errorSources } from "../../studies/error-sources.ts";
import type { Provenance } from "../../studies/estimate-data.ts";
import {
  estimateLike,
  type StudyUncertainty,
  type UncertainDesign,
} from "../../studies/uncertainty/study.ts";
import { isKnown } from "./uncertainty.ts";

/** `tenfold.uncertainty/1`: distributions, sensitivities and targets in SI. */
export function uncertaintyData(result: StudyUncertainty, provenance: Provenance): object {
  const { study, designs, targets, settings } = result;
  return {
    format: "tenfold.uncertainty/1",
    study: { title: study.title, ...provenance, seed: study.seed, coverage: study.coverage },
    sampling: settings.sampling ?? "low-discrepancy",
    interval: settings.interval ?? "symmetric",
    designs: designs.map(designData),
    model_error: errorSources(
      estimateLike(result),
      designs.flatMap(({ quantities }) => quantities.map(({ name }) => name)),
    ),
    targets: targets.map(({ needed, ...rest }) => ({
      ...rest,
      needed: needed.map(({ parameter, ...found }) => ({
        parameter: parameter.name,
        unit: parameter.unit,
        nominal: parameter.value,
        ...found,
      })),
    })),
  };
}

function designData({ name, draws, failed, broken, quantities }: UncertainDesign): object {
  return {
    name,
    works: broken === undefined,
    draws,
    failed,
    quantities: Object.fromEntries(
      quantities.map(
        ({ name: quantity, label: _, tornado, sensitivity, interval, model, ...one }) => [
          quantity,
          {
            ...one,
            low: interval.low,
            high: interval.high,
            ...(model && { model_low: model.low, model_high: model.high }),
            influences: sensitivity.influences
              .filter(({ first, total }) => isKnown(first) && isKnown(total))
              .map(({ parameters, first, total }) => ({
                parameters: parameters.length === 0 ? "others" : parameters.map(({ name }) => name),
                first,
                total,
              })),
            evaluations: sensitivity.evaluations,
            swings: tornado.swings.map(({ parameter, atLow, atHigh, ...ends }) => ({
              parameter: parameter.name,
              unit: parameter.unit,
              ...ends,
              // At an end at which the design does not work there is no figure.
              ...(Number.isFinite(atLow) && { atLow }),
              ...(Number.isFinite(atHigh) && { atHigh }),
            })),
          },
        ],
      ),
    ),
  };
}
