export { fragmentsPlate } from './fragmentsPlate.ts';
export { type PlateFormat, paintDots, paintPlate, plateFormats } from './paint.ts';
export { type PlateSize, printScaleOf } from './plateSize.ts';
export { type PrintedLightOptions, type PrintedLook, printedLook } from './printedLight.ts';
export {
  type PlateObject,
  type PrintOptions,
  type PrintPlate,
  printCaption,
  printPlate,
  timesNatural,
} from './printPlate.ts';
export { hourColumns, type StripPlateOptions, type StripRow, stripPlate } from './stripPlate.ts';
