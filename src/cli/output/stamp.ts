import { extname } from 'node:path';
import { crc32 } from 'node:zlib';
import { type Content, type Files, sha256 } from './filesList.ts';

/**
 * One file of a run with the hash of its record in it, where its format has a place for such a thing, so that a figure
 * or a table that was parted from the folder still names the record it belongs to. `recordSha256` is that of record.json.
 */
export function stamped(name: string, content: Content, recordSha256: string): Content {
  const stamp = stamps[extname(name).toLowerCase()];
  return stamp ? stamp(content, recordSha256) : content;
}

/** Every file with the hash of the record in its own folder, else of the one at the top. */
export function stampedAll(files: Files): Map<string, Content> {
  const hashes = new Map<string, string>();
  for (const [name, content] of files)
    if (/(^|\/)record\.json$/.test(name)) hashes.set(name.slice(0, -'record.json'.length), sha256(content));
  return new Map(
    [...files].map(([name, content]) => {
      const hash = hashes.get(name.slice(0, name.lastIndexOf('/') + 1)) ?? hashes.get('');
      return [name, hash === undefined ? content : stamped(name, content, hash)];
    }),
  );
}

const stamps: Readonly<Record<string, (content: Content, hash: string) => Content>> = {
  '.html': (content, hash) => {
    const page = before(textOf(content), '<title>', `<meta name="record-sha256" content="${hash}">\n`);
    const words = `SHA-256 of record.json: ${hash}.`;
    return page.includes('</footer>')
      ? before(page, '</footer>', ` ${words}`)
      : before(page, '<script type="application/json"', `<footer>${words}</footer>\n`);
  },
  '.svg': (content, hash) => before(textOf(content), '<title>', `<metadata>record.json sha256:${hash}</metadata>\n`),
  '.csv': (content, hash) => withColumn(textOf(content), 'record_sha256', `sha256:${hash}`),
  '.txt': (content, hash) => `${textOf(content)}\nrecord.json sha256:${hash}\n`,
  '.png': (content, hash) => withText(bytesOf(content), 'Record', `record.json sha256:${hash}`),
  '.ply': (content, hash) => withComment(bytesOf(content), `record.json sha256:${hash}`),
};

const textOf = (content: Content): string => (typeof content === 'string' ? content : Buffer.from(content).toString());
const bytesOf = (content: Content): Uint8Array => (typeof content === 'string' ? Buffer.from(content) : content);

function before(text: string, mark: string, insert: string): string {
  const at = text.indexOf(mark);
  return at < 0 ? text : text.slice(0, at) + insert + text.slice(at);
}

/** A last column with one value in every row after the head; line ends inside quoted cells are part of the cell. */
function withColumn(text: string, name: string, value: string): string {
  let quotes = 0;
  let rows = 0;
  let out = '';
  for (const line of text.split(/(?<=\r\n)/)) {
    for (const char of line) if (char === '"') quotes++;
    const ends = quotes % 2 === 0 && line.endsWith('\r\n');
    out += ends ? `${line.slice(0, -2)},${rows === 0 ? name : value}\r\n` : line;
    if (ends) rows++;
  }
  return out;
}

/** A PNG with one tEXt chunk more, after its head (8 bytes of signature, 25 of IHDR). */
function withText(png: Uint8Array, key: string, text: string): Uint8Array {
  const body = Buffer.from(`tEXt${key}\0${text}`, 'latin1');
  const chunk = Buffer.alloc(body.length + 8);
  chunk.writeUInt32BE(body.length - 4, 0);
  body.copy(chunk, 4);
  chunk.writeUInt32BE(crc32(body), body.length + 4);
  return Buffer.concat([png.subarray(0, 33), chunk, png.subarray(33)]);
}

/** A PLY with one comment more, after the line that names its format. */
function withComment(ply: Uint8Array, comment: string): Uint8Array {
  const bytes = Buffer.from(ply.buffer, ply.byteOffset, ply.length);
  const at = bytes.indexOf('\n', bytes.indexOf('\nformat ') + 1) + 1;
  return Buffer.concat([bytes.subarray(0, at), Buffer.from(`comment ${comment}\n`), bytes.subarray(at)]);
}
