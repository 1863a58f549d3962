import { toSvg } from '../drawing/index.ts';
import type { ChangeFigure } from '../figures/change.ts';
import type { ChangeRecord } from '../record/changeSchema.ts';
import { changeCauseWords, sensitivityWords } from '../words/change.ts';
import { clockHour } from '../words/phrases.ts';
import { list, number, percent, safe, signedNumber, table, terms, withSd } from './html.ts';
import { notice } from './sheets.ts';
import { pageStyle, type Typeface } from './style.ts';
import { wholePage } from './wholePage.ts';

export interface ChangePageOptions {
  readonly typeface?: Typeface | undefined;
}

/** At most this many changes stand in the table: the record has all. */
const mostRows = 14;

/**
 * Two pages: the dates under one lamp with the answer, then the map with its table, every change with all its causes, and
 * what limits it. The record is in the page's source.
 */
export function changePage(
  record: ChangeRecord,
  figures: readonly ChangeFigure[],
  { typeface }: ChangePageOptions = {},
): string {
  const title = `${record.earlier.file} and ${record.later.file}: what changed?`;
  const figure = (id: ChangeFigure['id'], kind: string): string => {
    const found = figures.find((each) => each.id === id);
    return found
      ? `<figure id="figure-${id}" class="${kind}">${toSvg(found.drawing)}<figcaption><i>${safe(found.heading)}.</i> ${safe(found.caption)}</figcaption></figure>`
      : '';
  };
  const body = [
    `<section class="sheet" id="finding"><header><p class="running">Ectype · one object on two dates</p>
<h1>What changed between the two scans?</h1>${record.simulated ? notice : ''}</header>
${figure('dates', 'seals')}
<h2 class="unseen">Finding</h2>
<p class="finding">${safe(record.sentence)}</p>
${terms(factsOf(record))}</section>`,
    `<section class="sheet last" id="changes"><h2>What changed, and what can have changed it</h2>
${figure('change', 'seals')}
${changesTable(record)}
<h2>Limits</h2>
${list(record.limits.map(({ words }) => words))}
${scansTable(record)}
<footer>${record.simulated ? 'Simulated scans. ' : ''}Made by Ectype ${safe(record.paradata.version)} on ${safe(record.paradata.startedAt.slice(0, 10))}. Lengths in millimetres, angles in degrees. Each ± is one standard deviation. No question of matrices is asked here. Handling of the object is for the holding institution’s conservator to decide.</footer></section>`,
  ];
  return wholePage(safe(title), pageStyle(typeface), body, record);
}

function factsOf({ size, registration, noise }: ChangeRecord): Array<[string, string]> {
  if (!registration || !noise) return [];
  const from = { pair: 'the two scans themselves', oneRepeat: 'one repeat', repeats: 'repeats of both dates' }[
    noise.from
  ];
  return [
    ['Size', safe(size?.words ?? '')],
    [
      'Compared',
      `${percent(registration.comparedShare)} of the earlier’s face; registered on the ${percent(registration.unchangedShare)} of it that did not change, to ${number(registration.translationSdMm, 4)} mm and ${number(registration.rotationSdDeg, 4)}°`,
    ],
    [
      'Noise',
      safe(
        `${number(noise.cellMm, 4)} mm in a cell of ${number(noise.cellSideMm, 2)} mm, read from ${from}. ${sensitivityWords(noise.sensitivity.map(({ areaMm2, heightMm }) => ({ areaMm2, heightMm: heightMm ?? Number.NaN })))}`,
      ),
    ],
  ];
}

function changesTable({ changes }: ChangeRecord): string {
  if (changes.length === 0) return '<p>No change was found.</p>';
  const rest = changes.length - mostRows;
  const more = rest > 0 ? ` ${rest} more stand in the record.` : '';
  return table(
    `Every place that changed, the surest first, with each cause that it can have; the order of causes means nothing. Places clockwise from 12 o’clock${more ? ';' : '.'}${more}`,
    [
      { head: '', words: true },
      { head: 'place', words: true },
      { head: 'area, mm²' },
      { head: 'mean, mm' },
      { head: 'volume, mm³' },
      { head: 'what', words: true },
      { head: 'can be', words: true },
    ],
    changes
      .slice(0, mostRows)
      .map((change) => [
        safe(change.id),
        `${number(change.at.deg, 0)}°, ${clockHour(change.at.hour)} o’clock, ${number(change.at.radiusMm, 1)} mm`,
        number(change.areaMm2, 1),
        signedNumber(change.meanMm, 3),
        withSd(change.volumeMm3, change.volumeSdMm3, 3),
        whatOf(change),
        safe(
          change.causes.map((cause) => changeCauseWords(cause as Parameters<typeof changeCauseWords>[0])).join('; '),
        ),
      ]),
  );
}

function whatOf({ direction, shape, lengthMm, goesOn }: ChangeRecord['changes'][number]): string {
  if (direction === 'absent') return 'no surface on the later scan';
  if (shape === 'area') return direction === 'lowered' ? 'lower' : 'higher';
  return `${direction === 'lowered' ? 'sunk' : 'raised'} line, ${number(lengthMm, 1)} mm${goesOn ? ', goes on from an older groove' : ''}`;
}

function scansTable({ earlier, later, repeats }: ChangeRecord): string {
  const row = (name: string, scan: { file: string; sha256: string }): string[] => [
    name,
    `<i>${safe(scan.file)}</i>`,
    `<code>${scan.sha256.slice(0, 32)}<wbr>${scan.sha256.slice(32)}</code>`,
  ];
  return table(
    'The scans.',
    [
      { head: '', words: true },
      { head: 'file', words: true },
      { head: 'SHA-256', words: true },
    ],
    [
      row('earlier', earlier),
      row('later', later),
      ...(repeats.earlier ? [row('earlier, again', repeats.earlier)] : []),
      ...(repeats.later ? [row('later, again', repeats.later)] : []),
    ],
  );
}
