export { type FitOptions, fitLeastSquares, type Residuals } from "./least-squares.ts";
export { profileIntervals } from "./profile.ts";
export { type Resampled, resampledIntervals } from "./resample.ts";
export { type Fit, fitIntervals } from "./summary.ts";
