/** What XML 1.0 cannot hold, not even as a reference (section 2.2): controls, halves of characters, two codes. */
const notInXml =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for.
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

const references: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
};

/**
 * Text for the content and the attributes (in double quotes) of XML, SVG and HTML. What no XML may hold becomes �, so that a page with a
 * file's own words in it stays well formed and shows that something was there.
 */
export const escapeXml = (text: string): string =>
  text.replace(notInXml, '\ufffd').replace(/[&<>"]/g, (letter) => references[letter]);
