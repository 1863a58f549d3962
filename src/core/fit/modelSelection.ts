import type { Fit, FitModel } from './types.ts';

/** A fit's model of that name; a fit carries all three. */
export const modelOf = ({ models }: Pick<Fit, 'models'>, name: FitModel['model']): FitModel =>
  models.find(({ model }) => model === name) ?? models[0];

/** The model that the fit chose. */
export const chosenModel = (fit: Fit): FitModel => modelOf(fit, fit.chosen);
