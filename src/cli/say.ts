import { printableJson, printableLines } from '../core/scan/index.ts';

/** Prints lines in which names and headers of files may stand: nothing of them reaches the terminal as a command. */
export const say = (text: string): void => void process.stdout.write(`${printableLines(text)}\n`);

/** Prints a JSON text: what a terminal would obey is written as its number, so that the text is read back as it was. */
export const sayJson = (json: string): void => void process.stdout.write(`${printableJson(json)}\n`);

/** The same on standard error: what is said while the work goes on. */
export const warn = (text: string): void => void process.stderr.write(`${printableLines(text)}\n`);
