/**
 * What a terminal or a reader would take for a command and not for a letter: control characters (C0, DEL, C1, which begin the escape
 * sequences), marks that turn the direction of writing, invisible joiners, separators of lines and halves of characters.
 */
const unprintable =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for.
  /[\u0000-\u001f\u007f-\u009f\u200b\u200e\u200f\u2028-\u202e\u2060-\u2069\ufeff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/** Text from outside (names, headers) as one line that is safe on a terminal: blanks for white space, � for the rest. */
export const printable = (text: string): string => text.replace(/[\t\r\n]+/g, ' ').replace(unprintable, '\ufffd');

/** The same for text of several lines of our own, in which text from outside may stand: its lines are kept. */
export const printableLines = (text: string): string => text.split('\n').map(printable).join('\n');

/** The same for a JSON text, which reads back as it was: in JSON such characters stand only in texts, where their number may. */
export const printableJson = (json: string): string =>
  json.replace(unprintable, (letter) =>
    letter === '\n' ? letter : `\\u${letter.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
