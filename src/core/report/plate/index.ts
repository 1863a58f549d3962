export { type PlateFormat, paintDots, paintPlate, plateFormats } from './paint.ts';
export { type PlateObject, type PrintOptions, type PrintPlate, printPlate } from './printPlate.ts';
