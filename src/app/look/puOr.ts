export { rgb } from './rgb.ts';
